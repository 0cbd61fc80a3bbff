//! Plan lines as rows: every revision is kept, none is written over.

use super::cells::{Cells, finite, finite_if, number};
use super::error::Fault;
use crate::record::{Bench, Lot, Order, Placement, Plan, Revision, Site, Term};
use rusqlite::{Connection, Params, named_params};

/// A plan line that is a row of a table.
pub(super) trait Line: Sized + PartialEq {
    /// Every row, in the order of key and revision.
    const ALL: &'static str;
    /// From a row.
    fn read(cells: &Cells<'_, '_>) -> Result<Self, Fault>;
    /// The row of the same key and revision.
    fn find(&self, connection: &Connection) -> Result<Option<Self>, Fault>;
    /// As a new row.
    fn insert(&self, connection: &Connection) -> Result<(), Fault>;
    /// Its key and revision in words.
    fn name(&self) -> String;
}

/// The whole plan.
pub(super) fn load(connection: &Connection) -> Result<Plan, Fault> {
    Ok(Plan {
        sites: all(connection)?,
        lots: all(connection)?,
        benches: all(connection)?,
        placements: all(connection)?,
        orders: all(connection)?,
    })
}

fn all<L: Line>(connection: &Connection) -> Result<Vec<L>, Fault> {
    rows(connection, L::ALL, [])
}

fn rows<L: Line>(connection: &Connection, sql: &str, keys: impl Params) -> Result<Vec<L>, Fault> {
    let mut statement = connection.prepare_cached(sql)?;
    let mut rows = statement.query(keys)?;
    let mut found = Vec::new();
    while let Some(row) = rows.next()? {
        found.push(L::read(&Cells(row))?);
    }
    Ok(found)
}

fn one<L: Line>(connection: &Connection, sql: &str, keys: impl Params) -> Result<Option<L>, Fault> {
    Ok(rows(connection, sql, keys)?.pop())
}

fn insert(connection: &Connection, sql: &str, values: impl Params) -> Result<(), Fault> {
    connection.prepare_cached(sql)?.execute(values)?;
    Ok(())
}

/// Makes a code known to its table.
fn known(connection: &Connection, table: &str, column: &str, code: &str) -> Result<(), Fault> {
    let sql = format!(
        "INSERT INTO {table} ({column}) SELECT ?1 WHERE NOT EXISTS (SELECT 1 FROM {table} WHERE {column} = ?1)"
    );
    insert(connection, &sql, [code])
}

impl Line for Site {
    const ALL: &'static str = "SELECT * FROM site_line ORDER BY rev";

    fn read(cells: &Cells<'_, '_>) -> Result<Self, Fault> {
        let zone: String = cells.get("time_zone")?;
        let houses: String = cells.get("dull_houses")?;
        Ok(Self {
            name: cells.get("name")?,
            latitude: cells.get("latitude")?,
            longitude: cells.get("longitude")?,
            time_zone: zone.parse().map_err(|e| Fault::Odd(format!("time_zone '{zone}': {e}")))?,
            units: cells.word("units")?,
            region: cells.word("region")?,
            low_light_houses: serde_json::from_str(&houses).map_err(|e| Fault::Odd(format!("dull_houses: {e}")))?,
            emergency: cells.get("emergency")?,
            revision: Revision::number(cells.get("rev")?),
        })
    }

    fn find(&self, connection: &Connection) -> Result<Option<Self>, Fault> {
        one(connection, "SELECT * FROM site_line WHERE rev = ?1", [self.revision.rev])
    }

    fn insert(&self, connection: &Connection) -> Result<(), Fault> {
        let houses = serde_json::to_string(&self.low_light_houses).map_err(|e| Fault::Refused(e.to_string()))?;
        insert(
            connection,
            "INSERT INTO site_line (rev, name, latitude, longitude, time_zone, units, region, dull_houses, emergency)
             VALUES (:rev, :name, :latitude, :longitude, :time_zone, :units, :region, :dull_houses, :emergency)",
            named_params! {
                ":rev": self.revision.rev, ":name": self.name, ":latitude": finite(self.latitude)?,
                ":longitude": finite(self.longitude)?, ":time_zone": self.time_zone.name(), ":units": self.units.code(),
                ":region": self.region.code(), ":dull_houses": houses, ":emergency": self.emergency,
            },
        )
    }

    fn name(&self) -> String {
        format!("site rev {}", self.revision.rev)
    }
}

impl Line for Lot {
    const ALL: &'static str = "SELECT * FROM lot_line ORDER BY lot, rev";

    fn read(cells: &Cells<'_, '_>) -> Result<Self, Fault> {
        Ok(Self {
            lot: cells.get("lot")?,
            cultivar: cells.get("cultivar")?,
            container: cells.get("container")?,
            cuttings_per_pot: cells.get("cuttings_per_pot")?,
            pots: cells.get("pots")?,
            planted: cells.day("planted")?,
            pinch: cells.word("pinch")?,
            response_weeks: cells.get("response_weeks")?,
            nights: cells.word("nights")?,
            ready_by: cells.day("ready_by")?,
            rim_cm: cells.get("rim_cm")?,
            pot_height_cm: cells.get("pot_height_cm")?,
            blackout_from: cells.day_if("blackout_from")?,
            lights_until: cells.day_if("lights_until")?,
            height_low_cm: cells.get("height_low_cm")?,
            height_high_cm: cells.get("height_high_cm")?,
            feed_n_ppm: cells.get("feed_n_ppm")?,
            feed_mg_ppm: cells.get("feed_mg_ppm")?,
            feed_mo_ppm: cells.get("feed_mo_ppm")?,
            slow_release_g: cells.get("slow_release_g")?,
            calcium: cells.get("calcium")?,
            revision: Revision::number(cells.get("rev")?),
        })
    }

    fn find(&self, connection: &Connection) -> Result<Option<Self>, Fault> {
        one(connection, "SELECT * FROM lot_line WHERE lot = ?1 AND rev = ?2", (&self.lot, self.revision.rev))
    }

    fn insert(&self, connection: &Connection) -> Result<(), Fault> {
        known(connection, "known_lot", "lot", &self.lot)?;
        insert(
            connection,
            "INSERT INTO lot_line (lot, rev, cultivar, container, cuttings_per_pot, pots, planted, pinch, response_weeks,
               nights, ready_by, rim_cm, pot_height_cm, blackout_from, lights_until, height_low_cm, height_high_cm,
               feed_n_ppm, feed_mg_ppm, feed_mo_ppm, slow_release_g, calcium)
             VALUES (:lot, :rev, :cultivar, :container, :cuttings, :pots, :planted, :pinch, :response, :nights, :ready,
               :rim, :pot_height, :blackout, :lights, :low, :high, :n, :mg, :mo, :slow, :calcium)",
            named_params! {
                ":lot": self.lot, ":rev": self.revision.rev, ":cultivar": self.cultivar, ":container": self.container,
                ":cuttings": self.cuttings_per_pot, ":pots": self.pots, ":planted": number(self.planted),
                ":pinch": self.pinch.code(), ":response": finite(self.response_weeks)?, ":nights": self.nights.code(),
                ":ready": number(self.ready_by), ":rim": finite_if(self.rim_cm)?,
                ":pot_height": finite_if(self.pot_height_cm)?, ":blackout": self.blackout_from.map(number),
                ":lights": self.lights_until.map(number), ":low": finite_if(self.height_low_cm)?,
                ":high": finite_if(self.height_high_cm)?, ":n": finite_if(self.feed_n_ppm)?,
                ":mg": finite_if(self.feed_mg_ppm)?, ":mo": finite_if(self.feed_mo_ppm)?,
                ":slow": finite_if(self.slow_release_g)?, ":calcium": self.calcium,
            },
        )
    }

    fn name(&self) -> String {
        format!("lot {} rev {}", self.lot, self.revision.rev)
    }
}

impl Line for Bench {
    const ALL: &'static str = "SELECT * FROM bench_line ORDER BY bench, rev";

    fn read(cells: &Cells<'_, '_>) -> Result<Self, Fault> {
        Ok(Self {
            bench: cells.get("bench")?,
            house: cells.get("house")?,
            order: cells.get("order")?,
            area_m2: cells.get("area_m2")?,
            revision: Revision::number(cells.get("rev")?),
        })
    }

    fn find(&self, connection: &Connection) -> Result<Option<Self>, Fault> {
        one(connection, "SELECT * FROM bench_line WHERE bench = ?1 AND rev = ?2", (&self.bench, self.revision.rev))
    }

    fn insert(&self, connection: &Connection) -> Result<(), Fault> {
        known(connection, "known_house", "house", &self.house)?;
        known(connection, "known_bench", "bench", &self.bench)?;
        insert(
            connection,
            "INSERT INTO bench_line (bench, rev, house, \"order\", area_m2) VALUES (?1, ?2, ?3, ?4, ?5)",
            (&self.bench, self.revision.rev, &self.house, self.order, finite_if(self.area_m2)?),
        )
    }

    fn name(&self) -> String {
        format!("bench {} rev {}", self.bench, self.revision.rev)
    }
}

impl Line for Placement {
    const ALL: &'static str = "SELECT * FROM placement_line ORDER BY \"from\", bench, rev";

    fn read(cells: &Cells<'_, '_>) -> Result<Self, Fault> {
        Ok(Self {
            bench: cells.get("bench")?,
            lot: cells.get("lot")?,
            pots: cells.get("pots")?,
            from: cells.day("from")?,
            revision: Revision::number(cells.get("rev")?),
        })
    }

    fn find(&self, connection: &Connection) -> Result<Option<Self>, Fault> {
        let sql = "SELECT * FROM placement_line WHERE bench = ?1 AND \"from\" = ?2 AND rev = ?3";
        one(connection, sql, (&self.bench, number(self.from), self.revision.rev))
    }

    fn insert(&self, connection: &Connection) -> Result<(), Fault> {
        insert(
            connection,
            "INSERT INTO placement_line (bench, \"from\", rev, lot, pots) VALUES (?1, ?2, ?3, ?4, ?5)",
            (&self.bench, number(self.from), self.revision.rev, &self.lot, self.pots),
        )
    }

    fn name(&self) -> String {
        format!("placement on {} from {} rev {}", self.bench, self.from, self.revision.rev)
    }
}

impl Line for Order {
    const ALL: &'static str = "SELECT * FROM order_line ORDER BY date, lot, rev";

    fn read(cells: &Cells<'_, '_>) -> Result<Self, Fault> {
        Ok(Self {
            lot: cells.get("lot")?,
            date: cells.day("date")?,
            pots: cells.get("pots")?,
            revision: Revision::number(cells.get("rev")?),
        })
    }

    fn find(&self, connection: &Connection) -> Result<Option<Self>, Fault> {
        let sql = "SELECT * FROM order_line WHERE lot = ?1 AND date = ?2 AND rev = ?3";
        one(connection, sql, (&self.lot, number(self.date), self.revision.rev))
    }

    fn insert(&self, connection: &Connection) -> Result<(), Fault> {
        insert(
            connection,
            "INSERT INTO order_line (lot, date, rev, pots) VALUES (?1, ?2, ?3, ?4)",
            (&self.lot, number(self.date), self.revision.rev, self.pots),
        )
    }

    fn name(&self) -> String {
        format!("order of {} for {} rev {}", self.lot, self.date, self.revision.rev)
    }
}
