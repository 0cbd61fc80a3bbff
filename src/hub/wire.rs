//! One connection to a server. It has a thread of its own, so that an answer is waited for no longer than a set time, also from a
//! server that accepts a connection and then falls silent.

use postgres::{Client, Config, Error, NoTls};
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::thread::Builder;
use std::time::Duration;
use tokio_postgres_rustls::MakeRustlsConnect;

type Job = Box<dyn FnOnce(&mut Client) + Send>;

/// Why there is no answer.
pub(super) enum Lost {
    /// The library or the server says so.
    Said(Error),
    /// Nothing came in this time.
    Silent(Duration),
    /// There is no thread for it.
    Thread(String),
}

/// A connection; it is closed when this is dropped.
pub(super) struct Wire(Sender<Job>);

impl Wire {
    /// Connects, with TLS where there is something to check certificates with.
    pub(super) fn connect(config: Config, tls: Option<MakeRustlsConnect>, most: Duration) -> Result<Self, Lost> {
        let (jobs, todo) = channel::<Job>();
        let (tell, connected) = channel();
        let work = move || {
            let made = match tls {
                Some(tls) => config.connect(tls),
                None => config.connect(NoTls),
            };
            match made {
                Ok(mut client) => {
                    // Nobody waits any longer: then nobody gives jobs either.
                    if tell.send(Ok(())).is_ok() {
                        for job in todo {
                            job(&mut client);
                        }
                    }
                }
                Err(error) => tell.send(Err(error)).unwrap_or_default(),
            }
        };
        let thread = Builder::new().name("hub".to_owned()).spawn(work);
        thread.map_err(|error| Lost::Thread(super::words::plain(&error)))?;
        wait(&connected, most).map(|()| Self(jobs))
    }

    /// Asks, and waits so long for the answer. After a silence the connection is of no use any more.
    pub(super) fn ask<T: Send + 'static>(
        &self,
        most: Duration,
        job: impl FnOnce(&mut Client) -> Result<T, Error> + Send + 'static,
    ) -> Result<T, Lost> {
        let (tell, answer) = channel();
        // Where nobody waits for the answer any longer it goes nowhere.
        let job: Job = Box::new(move |client| tell.send(job(client)).unwrap_or_default());
        self.0.send(job).ok().ok_or(Lost::Silent(most))?;
        wait(&answer, most)
    }
}

fn wait<T>(answer: &Receiver<Result<T, Error>>, most: Duration) -> Result<T, Lost> {
    match answer.recv_timeout(most) {
        Ok(answer) => answer.map_err(Lost::Said),
        Err(RecvTimeoutError::Timeout) => Err(Lost::Silent(most)),
        Err(RecvTimeoutError::Disconnected) => Err(Lost::Thread("it ended".to_owned())),
    }
}
