//! What the console of Windows tells a program, by the numbers of the signals that stand for it on other systems, and whether it
//! takes escape sequences.

use std::fmt;
use std::io;
use std::sync::Arc;
use std::task::{Context, Poll, Wake, Waker};
use std::thread::Thread;
use tokio::signal::windows;

/// A kind of event.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    /// Ctrl-C, where the console does not give it as a key.
    Interrupt,
    /// Ctrl-Break.
    Break,
    /// The window of the console was closed.
    Close,
    /// The user logs off.
    LogOff,
    /// The machine is shut down.
    ShutDown,
}

/// All of them.
pub(super) const EVENTS: [Kind; 5] = [Kind::Interrupt, Kind::Break, Kind::Close, Kind::LogOff, Kind::ShutDown];

impl Kind {
    /// The signal it stands for: interrupt, hang-up, terminate. The exit code of the program is made of it.
    pub(super) const fn signal(self) -> i32 {
        match self {
            Self::Interrupt | Self::Break => 2,
            Self::Close => 1,
            Self::LogOff | Self::ShutDown => 15,
        }
    }
}

type Poller = Box<dyn FnMut(&mut Context<'_>) -> Poll<Option<()>> + Send>;

/// Events that are watched. While they are, they do not end the program; afterwards they do.
pub(super) struct Events(Vec<(Kind, Poller)>);

impl fmt::Debug for Events {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_list().entries(self.0.iter().map(|(kind, _)| kind)).finish()
    }
}

impl Events {
    /// Starts watching events of these kinds.
    ///
    /// # Errors
    /// What the system says.
    pub(super) fn watch(kinds: &[Kind]) -> io::Result<Self> {
        let poller = |kind: Kind| -> io::Result<Poller> {
            Ok(match kind {
                Kind::Interrupt => {
                    let mut events = windows::ctrl_c()?;
                    Box::new(move |context| events.poll_recv(context))
                }
                Kind::Break => {
                    let mut events = windows::ctrl_break()?;
                    Box::new(move |context| events.poll_recv(context))
                }
                Kind::Close => {
                    let mut events = windows::ctrl_close()?;
                    Box::new(move |context| events.poll_recv(context))
                }
                Kind::LogOff => {
                    let mut events = windows::ctrl_logoff()?;
                    Box::new(move |context| events.poll_recv(context))
                }
                Kind::ShutDown => {
                    let mut events = windows::ctrl_shutdown()?;
                    Box::new(move |context| events.poll_recv(context))
                }
            })
        };
        kinds.iter().map(|kind| Ok((*kind, poller(*kind)?))).collect::<io::Result<_>>().map(Self)
    }

    /// Waits for the next event and gives the signal it stands for; `None` once `goes_on` says so, which is looked at whenever this
    /// thread is unparked.
    pub(super) fn next(&mut self, goes_on: impl Fn() -> bool) -> Option<i32> {
        let waker = Waker::from(Arc::new(Unparks(std::thread::current())));
        let mut context = Context::from_waker(&waker);
        while goes_on() {
            for (kind, poll) in &mut self.0 {
                if poll(&mut context) == Poll::Ready(Some(())) {
                    return Some(kind.signal());
                }
            }
            std::thread::park();
        }
        None
    }
}

struct Unparks(Thread);

impl Wake for Unparks {
    fn wake(self: Arc<Self>) {
        self.0.unpark();
    }
}
