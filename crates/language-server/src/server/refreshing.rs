//! The client is told to ask again for what it shows of a document whose own text has not changed.

use super::Server;
use std::time::Duration;

/// How long it is waited first: whoever types in a file that others use changes it many times.
const SETTLED: Duration = Duration::from_millis(100);

/// How long after that it is told again about hints, each time. While it waits for hints an editor may not listen, and
/// what it asked for before the change would stay.
const AGAIN: [Duration; 2] = [Duration::from_secs(1), Duration::from_secs(3)];

impl Server {
    /// Hints, lenses and the colors of words may be others now, in any document.
    pub(crate) fn refresh_shown(&self) {
        let mut state = self.state();
        let refreshes = state.facts.refreshes;
        state.refreshes += 1;
        let number = state.refreshes;
        drop(state);
        let server = self.weakly();
        // What changes meanwhile is told by who comes after.
        let latest = move || server.get().filter(|server| server.state().refreshes == number);
        tokio::spawn(async move {
            tokio::time::sleep(SETTLED).await;
            // A client that refuses has nothing to show.
            let Some(server) = latest() else { return };
            if refreshes.hints {
                let _ = server.client().inlay_hint_refresh().await;
            }
            if refreshes.tokens {
                let _ = server.client().semantic_tokens_refresh().await;
            }
            if refreshes.lenses {
                let _ = server.client().code_lens_refresh().await;
            }
            drop(server);
            if !refreshes.hints {
                return;
            }
            for pause in AGAIN {
                tokio::time::sleep(pause).await;
                let Some(server) = latest() else { return };
                let _ = server.client().inlay_hint_refresh().await;
            }
        });
    }
}
