//! A started process, as its parent holds it.

use core::time::Duration;
use std::io::{self, ErrorKind, Read};
use std::process::{Child, ChildStderr, ChildStdin, ChildStdout, Command, ExitStatus, Stdio};
use std::sync::mpsc::{self, Receiver, RecvTimeoutError, Sender};
use std::thread;

use crate::frame::Frame;
use crate::message::{GREETING, Hello, Ready};
use crate::press::Bounds;
use crate::{PressError, system};

/// Bytes that may stand before the greeting.
const BEFORE_GREETING: usize = 4096;
/// Bytes that are kept of what a process says about its own end.
const LAST_WORDS: usize = 4096;
/// How long a process that has closed its pipes may take to end.
const TO_END: Duration = Duration::from_secs(1);
/// How often that is looked at.
const LOOK: Duration = Duration::from_millis(5);
/// What Rust's standard library says before it ends a program that gets no memory.
const NO_MEMORY: &str = "memory allocation of ";

/// It ends with this value.
pub(crate) struct Running {
    child: Child,
    orders: Sender<Frame>,
    answers: Receiver<io::Result<Frame>>,
    last_words: Receiver<String>,
}

impl Running {
    /// Starts a process and waits until it has limited itself.
    pub(crate) fn start(mut command: Command, bounds: Bounds) -> Result<Self, PressError> {
        command
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .env("RUST_BACKTRACE", "0");
        let started = command.spawn().and_then(Self::of);
        let mut running = started.map_err(|error| not_started(&error))?;
        let hello = Hello {
            memory: bounds.memory,
        };
        let hello = Frame::new(&hello, Vec::new()).map_err(|_| PressError::Unreadable)?;
        let ready = running.ask(hello, bounds)?;
        let ready: Ready = ready.head().map_err(|_| PressError::Unreadable)?;
        match ready.not_limited {
            None => Ok(running),
            Some(problem) => Err(PressError::NotLimited { problem }),
        }
    }

    fn of(mut child: Child) -> io::Result<Self> {
        let (orders, incoming) = mpsc::channel();
        let (outgoing, answers) = mpsc::channel();
        let (words, last_words) = mpsc::channel();
        let missing = || io::Error::from(ErrorKind::BrokenPipe);
        let pipes = (
            child.stdin.take().ok_or_else(missing)?,
            child.stdout.take().ok_or_else(missing)?,
        );
        let says = child.stderr.take().ok_or_else(missing)?;
        let running = Self {
            child,
            orders,
            answers,
            last_words,
        };
        let named = |name: &str| thread::Builder::new().name(name.to_owned());
        named("press courier").spawn(move || carry(pipes, &incoming, &outgoing))?;
        named("press last words").spawn(move || {
            // Nobody waits for them where the process was ended on purpose.
            let _ = words.send(listen(says));
        })?;
        Ok(running)
    }

    /// Whether it runs, as far as the system has told.
    pub(crate) fn is_alive(&mut self) -> bool {
        matches!(self.child.try_wait(), Ok(None))
    }

    /// Waits for the answer as long as the bounds allow. After an error the process is of no more use.
    pub(crate) fn ask(&mut self, order: Frame, bounds: Bounds) -> Result<Frame, PressError> {
        if self.orders.send(order).is_err() {
            return Err(self.death(bounds));
        }
        match self.answers.recv_timeout(bounds.time) {
            Ok(Ok(answer)) => Ok(answer),
            Ok(Err(error)) if error.kind() == ErrorKind::InvalidData => Err(PressError::Unreadable),
            Ok(Err(_)) | Err(RecvTimeoutError::Disconnected) => Err(self.death(bounds)),
            Err(RecvTimeoutError::Timeout) => Err(PressError::OutOfTime { limit: bounds.time }),
        }
    }

    /// What it died of; one that lives and closed its pipes is broken.
    fn death(&mut self, bounds: Bounds) -> PressError {
        let Some(status) = self.ended_by_itself() else {
            return PressError::Unreadable;
        };
        let words = self.last_words.recv_timeout(TO_END).unwrap_or_default();
        if words.contains(NO_MEMORY) {
            return PressError::OutOfMemory {
                limit: bounds.memory,
            };
        }
        match system::signal(status) {
            Some(signal) => PressError::Killed { signal },
            None => PressError::Ended {
                code: status.code(),
            },
        }
    }

    fn ended_by_itself(&mut self) -> Option<ExitStatus> {
        let mut waited = Duration::ZERO;
        while waited < TO_END {
            if let Ok(Some(status)) = self.child.try_wait() {
                return Some(status);
            }
            thread::sleep(LOOK);
            waited += LOOK;
        }
        None
    }
}

impl Drop for Running {
    /// Nothing in the process is worth waiting for, and none is left behind.
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

fn not_started(error: &io::Error) -> PressError {
    PressError::NotStarted {
        problem: error.to_string(),
    }
}

/// Carries orders in and answers out, one after another, until one cannot be.
fn carry(
    (mut to, mut from): (ChildStdin, ChildStdout),
    orders: &Receiver<Frame>,
    answers: &Sender<io::Result<Frame>>,
) {
    let mut greeted = false;
    for order in orders {
        let carried = order.write(&mut to).and_then(|()| {
            if !greeted {
                skip_to_greeting(&mut from)?;
                greeted = true;
            }
            Frame::read(&mut from)?.ok_or_else(|| ErrorKind::UnexpectedEof.into())
        });
        let is_last = carried.is_err();
        if answers.send(carried).is_err() || is_last {
            return;
        }
    }
}

fn skip_to_greeting(from: &mut impl Read) -> io::Result<()> {
    // Byte by byte: what follows the greeting is not to be taken with it.
    let (mut read, mut byte) = (Vec::new(), [0]);
    while read.len() < BEFORE_GREETING {
        from.read_exact(&mut byte)?;
        read.extend(byte);
        if read.ends_with(GREETING) {
            return Ok(());
        }
    }
    Err(ErrorKind::InvalidData.into())
}

/// The end of what it says, once it has ended.
fn listen(mut says: ChildStderr) -> String {
    let mut last = Vec::new();
    let mut some = [0; 1024];
    while let Ok(read) = says.read(&mut some)
        && read != 0
    {
        last.extend(some.iter().take(read));
        let too_long = last.len().saturating_sub(LAST_WORDS);
        last.drain(..too_long);
    }
    String::from_utf8_lossy(&last).into_owned()
}
