//! Where a session begins.

use crate::server::Server;
use crate::streams;
use crate::wire::{Connection, Outbox, ReadyOutput, SessionEnd, session};
use std::io;
use tokio::io::{AsyncRead, AsyncWrite, BufReader};
use tokio::runtime::Builder;
use tokio::sync::watch;
use tower_lsp::LspService;

/// How many threads look through texts and answer questions.
const HANDS: usize = 4;
/// Syntax trees are as deep as blocks are nested, and those are bounded.
pub(crate) const STACK: usize = 4 << 20;

/// Serves the client at the other end of the standard streams, until it is gone.
///
/// # Errors
/// The system gives no threads.
pub fn serve_standard_streams() -> io::Result<SessionEnd> {
    #[cfg(target_os = "linux")]
    in_small_pages();
    let runtime = Builder::new_current_thread()
        .enable_all()
        .max_blocking_threads(HANDS + 2)
        .thread_stack_size(STACK)
        .build()?;
    let end = runtime.block_on(async {
        let (output, ready) = streams::output();
        serve_over(streams::input(), output, ready).await
    });
    // Whoever still looks through something does it for nobody.
    runtime.shutdown_background();
    Ok(end)
}

/// Where the system gives huge pages unasked, a server with one text open would hold twice what it needs. This process
/// starts no other, which would inherit it.
#[cfg(target_os = "linux")]
fn in_small_pages() {
    // A system that cannot do so gives none, or more than is needed; nothing else depends on it.
    let _ = rustix::thread::disable_transparent_huge_pages(true);
}

/// Serves one client over any two streams.
pub async fn serve<R, W>(input: R, output: W) -> SessionEnd
where
    R: AsyncRead + Unpin,
    W: AsyncWrite + Unpin + Send + 'static,
{
    serve_over(input, output, None).await
}

/// `ready`: the same output, if it can be written to without waiting.
async fn serve_over<R, W>(input: R, output: W, ready: Option<ReadyOutput>) -> SessionEnd
where
    R: AsyncRead + Unpin,
    W: AsyncWrite + Unpin + Send + 'static,
{
    let (outbox, queue) = Outbox::new(ready);
    let (follow, parent) = watch::channel(None);
    let ours = outbox.clone();
    let (service, socket) = LspService::build(|client| Server::new(client, ours, follow))
        .custom_method("window/workDoneProgress/cancel", Server::progress_cancelled)
        .finish();
    let connection = Connection { service, socket, outbox, queue, parent };
    session(connection, BufReader::with_capacity(64 << 10, input), output).await
}
