//! Many files at once, and their results in order.

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use knotwright_numbers::ToNumber;
use rayon::prelude::*;
use std::cell::OnceCell;
use std::io::{IsTerminal, stderr};
use std::sync::{Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};

/// How many files are worked on before their results are taken: few enough to hold in memory, enough to keep every
/// processor busy.
const BATCH: usize = 512;

/// Work that takes no longer shows no progress.
const PATIENCE: Duration = Duration::from_secs(1);

/// What takes much memory, of several files only one at a time. Held from when it is taken to the end of the work on a
/// file; whoever has it may take it again.
#[derive(Default)]
pub(crate) struct LargeTurn(OnceCell<MutexGuard<'static, ()>>);

impl LargeTurn {
    /// Waits until no other file that takes much memory is being worked on.
    pub(crate) fn take(&self) {
        static TURN: Mutex<()> = Mutex::new(());
        self.0.get_or_init(|| TURN.lock().unwrap_or_else(PoisonError::into_inner));
    }
}

/// Does `work` for every item, several at a time, and hands the results to `take` in the order of the items.
///
/// # Errors
/// The first that `take` returns; what is left is not begun.
pub(crate) fn in_order<I: Sync, T: Send, E>(
    items: &[I],
    work: impl Fn(&I) -> T + Sync,
    mut take: impl FnMut(T) -> Result<(), E>,
) -> Result<(), E> {
    if let [one] = items {
        return take(work(one));
    }
    let mut progress = Progress::new(items.len());
    for batch in items.chunks(BATCH) {
        // One may take a hundred times as long as another: so each is handed out alone.
        let results: Vec<T> = batch.par_iter().with_max_len(1).map(&work).collect();
        progress.hide_while(|| results.into_iter().try_for_each(&mut take))?;
        progress.advance(batch.len());
    }
    Ok(())
}

/// A bar on stderr, if that is a terminal and the work takes long.
struct Progress {
    begun: Instant,
    done: usize,
    all: usize,
    bar: Option<ProgressBar>,
}

impl Progress {
    fn new(all: usize) -> Self {
        Self { begun: Instant::now(), done: 0, all, bar: None }
    }

    fn advance(&mut self, by: usize) {
        self.done += by;
        if self.bar.is_none()
            && self.begun.elapsed() > PATIENCE
            && self.done < self.all
            && stderr().is_terminal()
        {
            let bar = ProgressBar::with_draw_target(Some(self.all.to_u64()), ProgressDrawTarget::stderr());
            let style = ProgressStyle::with_template("{bar:30} {pos} of {len} files, {eta} left");
            self.bar = Some(bar.with_style(style.unwrap_or_else(|_| ProgressStyle::default_bar())));
        }
        if let Some(bar) = &self.bar {
            bar.set_position(self.done.to_u64());
        }
    }

    /// The bar must not stand among the lines that are written.
    fn hide_while<T>(&self, write: impl FnOnce() -> T) -> T {
        match &self.bar {
            Some(bar) => bar.suspend(write),
            None => write(),
        }
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        if let Some(bar) = &self.bar {
            bar.finish_and_clear();
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::sync::atomic::{AtomicUsize, Ordering};

    #[test]
    fn results_come_in_the_order_of_the_items() {
        let items: Vec<usize> = (0..3 * BATCH + 7).collect();
        let mut taken = Vec::new();
        let end: Result<(), ()> = in_order(
            &items,
            |item| item * 2,
            |result| {
                taken.push(result);
                Ok(())
            },
        );
        assert_eq!(end, Ok(()));
        assert!(taken.iter().enumerate().all(|(at, result)| *result == at * 2) && taken.len() == items.len());
    }

    #[test]
    fn what_takes_much_memory_is_done_one_after_another() {
        let (now, most) = (AtomicUsize::new(0), AtomicUsize::new(0));
        std::thread::scope(|scope| {
            for _ in 0..8 {
                scope.spawn(|| {
                    let turn = LargeTurn::default();
                    turn.take();
                    turn.take();
                    most.fetch_max(now.fetch_add(1, Ordering::SeqCst) + 1, Ordering::SeqCst);
                    std::thread::yield_now();
                    now.fetch_sub(1, Ordering::SeqCst);
                });
            }
        });
        assert_eq!(most.into_inner(), 1);
    }

    #[test]
    fn nothing_more_is_begun_once_a_result_was_refused() {
        let items: Vec<usize> = (0..4 * BATCH).collect();
        let begun = AtomicUsize::new(0);
        let count = |_: &usize| begun.fetch_add(1, Ordering::Relaxed);
        assert_eq!(in_order(&items, count, |_| Err("full")), Err("full"));
        assert_eq!(begun.into_inner(), BATCH);
    }
}
