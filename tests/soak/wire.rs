//! Bytes that reach a language server, whatever they are.

use knotwright_language_server::serve;
use std::time::Duration;
use tokio::io::AsyncReadExt;

/// How long a server may take for anything: it hangs if it takes longer.
const PATIENCE: Duration = Duration::from_secs(60);

pub(crate) fn run<T>(session: impl Future<Output = T>) -> T {
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build();
    runtime.expect("the system gives a runtime").block_on(session)
}

/// The session ends when they do.
pub(crate) fn bytes(bytes: &[u8]) -> Result<(), String> {
    run(async {
        let (ours, theirs) = tokio::io::duplex(1 << 16);
        let session = tokio::spawn(serve(std::io::Cursor::new(bytes.to_vec()), theirs));
        let (mut reader, mut answers) = (ours, Vec::new());
        let reading = tokio::time::timeout(PATIENCE, reader.read_to_end(&mut answers)).await;
        reading.map_err(|_| "the server does not end".to_owned())?.map_err(|error| error.to_string())?;
        session.await.map_err(|error| format!("the server fell: {error}"))?;
        if String::from_utf8_lossy(&answers).contains("Something went wrong") {
            return Err("a request ended in a panic".to_owned());
        }
        Ok(())
    })
}
