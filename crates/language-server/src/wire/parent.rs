//! The process that started us.

use std::time::Duration;

const INTERVAL: Duration = Duration::from_secs(2);

/// A process whose end is the end of the session.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Parent(#[cfg_attr(not(unix), allow(dead_code, reason = "asked for on Unix only"))] i32);

impl Parent {
    /// The process of that number, if it can be seen. A client in another container names one that cannot; that it
    /// cannot be seen later would mean nothing.
    pub(crate) fn seen(id: u32) -> Option<Self> {
        let parent = Self(i32::try_from(id).ok().filter(|id| *id > 0)?);
        parent.is_there().then_some(parent)
    }

    /// Returns when the process is gone.
    pub(crate) async fn gone(self) {
        while self.is_there() {
            tokio::time::sleep(INTERVAL).await;
        }
    }

    #[cfg(unix)]
    fn is_there(self) -> bool {
        let Some(process) = rustix::process::Pid::from_raw(self.0) else { return false };
        // One that belongs to somebody else is there, too.
        !matches!(rustix::process::test_kill_process(process), Err(rustix::io::Errno::SRCH))
    }

    /// Elsewhere the end of the input has to show it.
    #[cfg(not(unix))]
    fn is_there(self) -> bool {
        true
    }
}
