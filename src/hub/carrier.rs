//! A hub as a carrier.

use super::failures::{About, Doing, asking, connecting};
use super::service::{Place, Service};
use super::wire::Wire;
use super::{Now, Surroundings, tls};
use crate::characters::in_one_line;
use crate::exchange::{Arrival, Carrier, CarrierError, Chain, Head, Linked, Offered, Piece, Remark, Stream};
use chrono::{DateTime, TimeDelta, Utc};
use postgres::config::SslMode;
use postgres::types::Type;
use postgres::{Client, Config, Error, Row};
use std::time::Duration;
use uuid::Uuid;

/// The format of a hub that is known here.
const FORMAT: i64 = 1;

/// How long the server works on one question.
const STATEMENT: Duration = Duration::from_secs(30);

/// How long an answer is waited for: the server's time, and that on the line.
const ANSWER: Duration = Duration::from_secs(40);

/// Looking the name up, checking certificates, logging in: beside the connection itself.
const LOGGING_IN: Duration = Duration::from_secs(10);

/// How long what was sent may go without a sign that it arrived.
const UNHEARD: Duration = Duration::from_secs(20);

/// A clock that is off by less is not worth a word.
const CLOCK_OFF: TimeDelta = TimeDelta::minutes(2);

/// A season's place on a PostgreSQL server. It connects when it is asked first, and again after it was cut.
pub(super) struct Hub {
    words: String,
    around: Surroundings,
    now: Now,
    connected: Option<Connected>,
    remarks: Vec<Remark>,
}

struct Connected {
    wire: Wire,
    about: About,
    in_clear: bool,
    advised: Option<String>,
}

impl Hub {
    pub(super) fn new(words: &str, around: Surroundings, now: Now) -> Result<Self, CarrierError> {
        Service::read(words, &around)?;
        Ok(Self { words: words.to_owned(), around, now, connected: None, remarks: Vec::new() })
    }

    /// A new connection to the first place that answers. Files are read again each time: what was wrong in them may be mended.
    fn connect(&mut self) -> Result<Connected, CarrierError> {
        let service = Service::read(&self.words, &self.around)?;
        let mut last = CarrierError::Service(format!("no host is named in {}", service.from));
        for place in &service.places {
            match self.connect_to(&service, place) {
                Ok(connected) => return Ok(connected),
                Err(error) => last = error,
            }
        }
        Err(last)
    }

    fn connect_to(&self, service: &Service, place: &Place) -> Result<Connected, CarrierError> {
        let found = service.password(place, &self.around)?;
        let about = About {
            place: place.shown(),
            host: in_one_line(&place.host),
            role: in_one_line(&service.role),
            database: in_one_line(&service.database),
            from: service.from.clone(),
            look_at: found.look_at,
            connect: service.connect,
        };
        let protected = !place.is_socket() && !service.in_clear;
        let tls = if protected { Some(tls::connector(service, &self.around)?) } else { None };
        let mut config = config(service, place);
        config.ssl_mode(if protected { SslMode::Require } else { SslMode::Disable });
        if let Some(password) = found.password {
            config.password(password);
        }
        let wire = Wire::connect(config, tls, service.connect + LOGGING_IN);
        let wire = wire.map_err(|lost| connecting(&lost, &about))?;
        let (format, least) = wire.ask(ANSWER, format_of).map_err(|lost| asking(&lost, Doing::Looking, &about))?;
        if format > FORMAT {
            return Err(CarrierError::Newer { found: format, known: FORMAT });
        }
        let advised = is_less(env!("CARGO_PKG_VERSION"), &least).then(|| in_one_line(&least));
        Ok(Connected { wire, about, in_clear: !place.is_socket() && service.in_clear, advised })
    }

    /// Asks, on the connection that is there or a new one. What breaks a connection makes it useless.
    fn ask<T: Send + 'static>(
        &mut self,
        doing: Doing,
        job: impl FnOnce(&mut Client) -> Result<T, Error> + Send + 'static,
    ) -> Result<T, CarrierError> {
        let connected = match self.connected.take() {
            Some(connected) => connected,
            None => self.connect()?,
        };
        match connected.wire.ask(ANSWER, job) {
            Ok(answer) => {
                self.connected = Some(connected);
                Ok(answer)
            }
            Err(lost) => {
                let error = asking(&lost, doing, &connected.about);
                // What the server refuses in words leaves the connection as it was.
                if !matches!(error, CarrierError::Cut(_) | CarrierError::Odd(_)) {
                    self.connected = Some(connected);
                }
                Err(error)
            }
        }
    }

    /// The same for what begins an exchange and changes nothing when it is done twice: a connection that was left open may have
    /// gone meanwhile, which is no failure.
    fn ask_first<T: Send + 'static>(
        &mut self,
        doing: Doing,
        job: impl Fn(&mut Client) -> Result<T, Error> + Clone + Send + 'static,
    ) -> Result<T, CarrierError> {
        let was_open = self.connected.is_some();
        match self.ask(doing, job.clone()) {
            Err(CarrierError::Cut(_)) if was_open => self.ask(doing, job),
            answer => answer,
        }
    }

    fn note(&mut self, clock: DateTime<Utc>) {
        self.remarks.clear();
        let off = (self.now)() - clock;
        if off.abs() >= CLOCK_OFF {
            self.remarks.push(Remark::ClockOff(off));
        }
        let Some(connected) = &self.connected else { return };
        if connected.in_clear {
            self.remarks.push(Remark::InClear);
        }
        self.remarks.extend(connected.advised.clone().map(Remark::Advised));
    }

    fn role(&self) -> String {
        self.connected.as_ref().map(|connected| connected.about.role.clone()).unwrap_or_default()
    }
}

impl Carrier for Hub {
    fn seasons(&mut self) -> Result<Vec<Offered>, CarrierError> {
        let rows = self.ask_first(Doing::Reading, |client| {
            let query = "SELECT s.season, s.name, m.may_write FROM benchwalk.mine() m JOIN benchwalk.season s \
                         ON s.season = m.season ORDER BY s.made, s.season";
            client.query_typed(query, &[])?.iter().map(offered).collect::<Result<Vec<_>, _>>()
        })?;
        Ok(rows)
    }

    fn begin(&mut self, season: Uuid, name: &str) -> Result<(), CarrierError> {
        let name = name.to_owned();
        self.ask_first(Doing::Beginning, move |client| {
            let query = "SELECT benchwalk.begin_season($1, $2)";
            client.query_typed(query, &[(&season, Type::UUID), (&name, Type::TEXT)]).map(|_| ())
        })
    }

    fn heads(&mut self, season: Uuid) -> Result<Vec<Head>, CarrierError> {
        let rows = self.ask_first(Doing::Reading, move |client| {
            let query = "SELECT clock_timestamp(), t.stream, t.last, t.chain, t.laptop, t.seen FROM benchwalk.season s \
                         LEFT JOIN benchwalk.stream t ON t.season = s.season AND t.last > 0 WHERE s.season = $1";
            client.query_typed(query, &[(&season, Type::UUID)])?.iter().map(found_head).collect::<Result<Vec<_>, _>>()
        })?;
        let Some((clock, _)) = rows.first() else { return Err(CarrierError::NoSeason { role: self.role() }) };
        self.note(*clock);
        rows.into_iter().filter_map(|(_, head)| head.map(FoundHead::head)).collect()
    }

    fn read(&mut self, stream: Stream, after: u64, most: usize) -> Result<Vec<Linked>, CarrierError> {
        let most = i32::try_from(most).unwrap_or(i32::MAX);
        let found = self.ask(Doing::Reading, move |client| lines(client, stream, number(after), most))?;
        let consecutive = (number(after)..).skip(1).zip(&found).all(|(n, line)| n == line.0);
        if !consecutive {
            return Err(CarrierError::Odd("lines without one between them".to_owned()));
        }
        found.into_iter().map(|(_, bytes, text)| Ok(Linked { text, chain: chain(&bytes)? })).collect()
    }

    fn chain_at(&mut self, stream: Stream, n: u64) -> Result<Option<Chain>, CarrierError> {
        let Some(before) = n.checked_sub(1) else { return Ok(Some(Chain::START)) };
        let found = self.ask(Doing::Reading, move |client| lines(client, stream, number(before), 1))?;
        found.first().filter(|line| line.0 == number(n)).map(|line| chain(&line.1)).transpose()
    }

    fn give(&mut self, season: Uuid, piece: &Piece<'_>) -> Result<Head, CarrierError> {
        let (stream, after, clock) = (piece.stream, number(piece.after), (self.now)());
        let laptop = piece.laptop.map(str::to_owned);
        let before = piece.before.as_bytes().to_vec();
        let chains: Vec<Vec<u8>> = piece.lines.iter().map(|line| line.chain.as_bytes().to_vec()).collect();
        let texts: Vec<String> = piece.lines.iter().map(|line| line.text.clone()).collect();
        let (last, bytes) = self.ask(Doing::Giving, move |client| {
            let query = "SELECT last, chain FROM benchwalk.push($1, $2, $3, $4, $5, $6, $7, $8, $9)";
            let row = client.query_typed_one(
                query,
                &[
                    (&season, Type::UUID),
                    (&stream.0, Type::UUID),
                    (&laptop, Type::TEXT),
                    (&after, Type::INT8),
                    (&before, Type::BYTEA),
                    (&chains, Type::BYTEA_ARRAY),
                    (&texts, Type::TEXT_ARRAY),
                    (&env!("CARGO_PKG_VERSION"), Type::TEXT),
                    (&clock, Type::TIMESTAMPTZ),
                ],
            )?;
            Ok((row.try_get::<_, i64>(0)?, row.try_get::<_, Vec<u8>>(1)?))
        })?;
        let laptop = piece.laptop.map(str::to_owned);
        Ok(Head { stream, last: count(last)?, chain: chain(&bytes)?, laptop, seen: None })
    }

    fn arrival(&mut self, stream: Stream, n: u64) -> Result<Option<Arrival>, CarrierError> {
        let n = number(n);
        self.ask_first(Doing::Reading, move |client| {
            let query = "SELECT l.taken_from::text, s.laptop, l.taken FROM benchwalk.line l JOIN benchwalk.stream s \
                         ON s.stream = l.stream WHERE l.stream = $1 AND l.n = $2";
            let row = client.query_typed_opt(query, &[(&stream.0, Type::UUID), (&n, Type::INT8)])?;
            row.as_ref().map(found_arrival).transpose()
        })
    }

    fn remarks(&mut self) -> Vec<Remark> {
        std::mem::take(&mut self.remarks)
    }
}

/// All of a connection but the password and whether it is protected.
fn config(service: &Service, place: &Place) -> Config {
    let mut config = Config::new();
    config
        .host(&place.host)
        .port(place.port)
        .user(&service.role)
        .dbname(&service.database)
        .connect_timeout(service.connect)
        .tcp_user_timeout(UNHEARD)
        .target_session_attrs(service.target)
        .channel_binding(service.binding)
        .application_name(service.application.as_deref().unwrap_or("benchwalk"));
    if let Some(address) = place.address {
        config.hostaddr(address);
    }
    // Each step is one statement that sees what was committed before it: the level that the hub's functions count on.
    let ours =
        format!(r"-c statement_timeout={} -c default_transaction_isolation=read\ committed", STATEMENT.as_millis());
    config.options(&service.options.as_ref().map_or(ours.clone(), |theirs| format!("{theirs} {ours}")));
    config
}

fn format_of(client: &mut Client) -> Result<(i64, String), Error> {
    let row = client.query_typed_one("SELECT format::int8, least_program FROM benchwalk.about", &[])?;
    Ok((row.try_get(0)?, row.try_get(1)?))
}

fn offered(row: &Row) -> Result<Offered, Error> {
    let name: String = row.try_get(1)?;
    Ok(Offered { season: row.try_get(0)?, name: Some(in_one_line(&name)), may_write: row.try_get(2)? })
}

/// A head as it comes: its numbers are looked at where an odd one can be said.
struct FoundHead {
    stream: Uuid,
    last: i64,
    chain: Vec<u8>,
    laptop: Option<String>,
    seen: Option<DateTime<Utc>>,
}

impl FoundHead {
    fn head(self) -> Result<Head, CarrierError> {
        let laptop = self.laptop.map(|name| in_one_line(&name));
        Ok(Head {
            stream: Stream(self.stream),
            last: count(self.last)?,
            chain: chain(&self.chain)?,
            laptop,
            seen: self.seen,
        })
    }
}

/// The server's clock, and a head; none where the season has no lines yet.
fn found_head(row: &Row) -> Result<(DateTime<Utc>, Option<FoundHead>), Error> {
    let clock = row.try_get(0)?;
    let Some(stream) = row.try_get(1)? else { return Ok((clock, None)) };
    let head = FoundHead {
        stream,
        last: row.try_get(2)?,
        chain: row.try_get(3)?,
        laptop: row.try_get(4)?,
        seen: row.try_get(5)?,
    };
    Ok((clock, Some(head)))
}

fn lines(client: &mut Client, stream: Stream, after: i64, most: i32) -> Result<Vec<(i64, Vec<u8>, String)>, Error> {
    let query = "SELECT n, chain, body FROM benchwalk.lines($1, $2, $3)";
    let rows = client.query_typed(query, &[(&stream.0, Type::UUID), (&after, Type::INT8), (&most, Type::INT4)])?;
    rows.iter().map(|row| Ok((row.try_get(0)?, row.try_get(1)?, row.try_get(2)?))).collect()
}

fn found_arrival(row: &Row) -> Result<Arrival, Error> {
    let (login, laptop): (String, Option<String>) = (row.try_get(0)?, row.try_get(1)?);
    Ok(Arrival { login: in_one_line(&login), laptop: laptop.map(|name| in_one_line(&name)), at: row.try_get(2)? })
}

fn number(n: u64) -> i64 {
    i64::try_from(n).unwrap_or(i64::MAX)
}

fn count(n: i64) -> Result<u64, CarrierError> {
    u64::try_from(n).map_err(|error| CarrierError::Odd(format!("{n} lines: {error}")))
}

fn chain(bytes: &[u8]) -> Result<Chain, CarrierError> {
    Chain::from_bytes(bytes).ok_or_else(|| CarrierError::Odd(format!("a chain of {} bytes", bytes.len())))
}

/// True where a version of this program is before another: numbers between dots; what is no number is not compared.
fn is_less(ours: &str, other: &str) -> bool {
    let numbers = |text: &str| text.split('.').map(|part| part.parse().unwrap_or(0)).collect::<Vec<u32>>();
    numbers(ours) < numbers(other)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn versions_are_compared_number_by_number() {
        for (ours, other, less) in
            [("0.1.0", "0.1.0", false), ("0.1.0", "0.2.0", true), ("0.10.0", "0.9.9", false), ("1.0.0", "0.9", false)]
        {
            assert_eq!(is_less(ours, other), less, "{ours} {other}");
        }
    }
}
