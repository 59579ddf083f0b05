//! The newest text, looked at as often as there is time for it.

use crate::owner::Owner;
use knotwright_checker::{Report, Severity};
use std::sync::Arc;
use tokio::sync::watch;

/// What was seen last.
#[derive(Debug, Clone, Default)]
pub(crate) struct Sight {
    /// Counts looks.
    pub(crate) number: u64,
    /// What is said of the newest text.
    pub(crate) report: Option<Arc<Report>>,
    /// What was said of the last text without errors.
    pub(crate) good: Option<Arc<Report>>,
}

/// What makes another look worth while, counted.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct ChangeCounts {
    /// How often the text, or one that it uses, became another.
    pub(crate) number: u64,
    /// How often another pattern was to be shown.
    pub(crate) turns: u64,
}

/// Looks whenever something changed, until whoever reports changes is gone.
pub(crate) async fn look_on(
    owner: Arc<dyn Owner>,
    mut changes: watch::Receiver<ChangeCounts>,
    seen: watch::Sender<Sight>,
) {
    let mut turns = 0;
    loop {
        let now = changes.borrow_and_update().turns;
        // What was good of another pattern is no picture of this one.
        let turned = now != std::mem::replace(&mut turns, now);
        let asked = Arc::clone(&owner);
        // A mistake of ours in one text must not end the picture of the next.
        let report = tokio::task::spawn_blocking(move || asked.look()).await.ok().flatten();
        seen.send_modify(|sight| {
            sight.number += 1;
            if turned {
                sight.good = None;
            }
            if let Some(report) = report.as_ref().filter(|report| is_good(report)) {
                sight.good = Some(Arc::clone(report));
            }
            sight.report = report;
        });
        if changes.changed().await.is_err() {
            return;
        }
    }
}

/// Whether a text is without errors and has a band.
pub(crate) fn is_good(report: &Report) -> bool {
    report.pattern.is_some() && report.findings.iter().all(|finding| finding.severity != Severity::Error)
}
