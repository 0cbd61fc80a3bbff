//! Which season a file is of.

use super::error::Fault;
use super::{Store, StoreError, plan, row};
use crate::record::Line;
use crate::record::codec::season_id;
use rusqlite::{Connection, OptionalExtension};
use uuid::Uuid;

impl Store {
    /// The id of the season; `None` while there is no site line.
    ///
    /// # Errors
    /// As [`Store::load`].
    pub fn season_id(&self) -> Result<Option<Uuid>, StoreError> {
        let found = if self.version < 1 {
            Ok(None)
        } else if self.version < 2 {
            super::v1::load_plan(&self.connection).map(|plan| first_of(&plan))
        } else {
            read(&self.connection)
        };
        found.map_err(|fault| fault.of(&self.path))
    }
}

pub(super) fn read(connection: &Connection) -> Result<Option<Uuid>, Fault> {
    let bytes: Option<Vec<u8>> = connection.query_row("SELECT id FROM season", [], |row| row.get(0)).optional()?;
    bytes.map(|bytes| Uuid::from_slice(&bytes).map_err(|e| Fault::Malformed(format!("season: {e}")))).transpose()
}

/// The season made of the first line of the site.
fn first_of(plan: &crate::record::Plan) -> Option<Uuid> {
    let sites = plan.sites.iter().cloned().map(Line::Site);
    sites.min_by_key(Line::order).map(|line| season_id(line.id()))
}

/// Gives the file its season, once: the one named, else the one made of the first line of its site.
pub(super) fn settle(connection: &Connection, named: Option<Uuid>) -> Result<(), Fault> {
    let there = read(connection)?;
    let wanted = match (there, named) {
        (Some(there), Some(named)) if there != named => {
            return Err(Fault::Conflict(format!("season {there}")));
        }
        (Some(_), _) => return Ok(()),
        (None, Some(named)) => Some(named),
        (None, None) => first_of(&plan::load(connection, false)?.0),
    };
    if let Some(id) = wanted {
        row::one(connection.execute("INSERT INTO season (one, id) VALUES (1, ?1)", [id.as_bytes().as_slice()])?)?;
    }
    Ok(())
}
