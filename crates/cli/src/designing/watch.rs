//! When a search ends, and what is seen of it meanwhile.

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use knotwright_designer::Designed;
use knotwright_numbers::ToNumber;
use knotwright_wording::digits::count;
use std::io::{IsTerminal, stderr};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{Duration, Instant};

/// Ends a search after some time, or when the program is interrupted, whichever is first.
pub(crate) struct DesignTimer {
    end: Instant,
    interrupted: Arc<AtomicBool>,
    bar: Option<ProgressBar>,
}

/// The bar moves this often.
const TICK: Duration = Duration::from_millis(100);

impl DesignTimer {
    /// Begins now. On a terminal, a line says how far it is.
    pub(crate) fn start(seconds: u32) -> Self {
        let bar = stderr().is_terminal().then(|| {
            let bar = ProgressBar::with_draw_target(None, ProgressDrawTarget::stderr());
            let style = ProgressStyle::with_template("{spinner} {elapsed} {msg}");
            let bar = bar.with_style(style.unwrap_or_else(|_| ProgressStyle::default_spinner()));
            bar.set_message("looking for knots that show this face (Ctrl-C ends it)");
            bar.enable_steady_tick(TICK);
            bar
        });
        let end = Instant::now() + Duration::from_secs(u64::from(seconds));
        Self { end, interrupted: listen(), bar }
    }

    /// Whether to stop.
    pub(crate) fn is_over(&self) -> bool {
        self.is_interrupted() || Instant::now() >= self.end
    }

    /// Whether somebody said to stop.
    pub(crate) fn is_interrupted(&self) -> bool {
        self.interrupted.load(Ordering::Relaxed)
    }

    /// Shows a better answer.
    pub(crate) fn show(&self, designed: &Designed) {
        let Some(bar) = &self.bar else { return };
        let turning = count(designed.turning.to_u64(), "turning knot");
        bar.set_message(match designed.given_up.len() {
            0 => format!("{turning}; looking for fewer (Ctrl-C keeps this)"),
            given_up => format!("{given_up} given up, {turning}; looking for fewer (Ctrl-C keeps this)"),
        });
    }
}

impl Drop for DesignTimer {
    fn drop(&mut self) {
        if let Some(bar) = &self.bar {
            bar.finish_and_clear();
        }
    }
}

/// Set once the program is interrupted; interrupted again, it ends at once.
#[cfg(unix)]
fn listen() -> Arc<AtomicBool> {
    use signal_hook::consts::{SIGINT, SIGTERM};
    use signal_hook::flag;
    let interrupted = Arc::new(AtomicBool::new(false));
    for signal in [SIGINT, SIGTERM] {
        // The first one ends the program if the second was not there before: their order matters.
        let _ = flag::register_conditional_default(signal, Arc::clone(&interrupted));
        let _ = flag::register(signal, Arc::clone(&interrupted));
    }
    interrupted
}

#[cfg(not(unix))]
fn listen() -> Arc<AtomicBool> {
    Arc::default()
}
