//! The standard streams. Pipes and sockets, which is what editors give, say when they are ready: then no thread has to
//! wait at each of them, and hand over every message.

use crate::wire::ReadyOutput;
use tokio::io::{AsyncRead, AsyncWrite};

pub(crate) type Input = Box<dyn AsyncRead + Unpin>;
pub(crate) type Output = Box<dyn AsyncWrite + Unpin + Send>;

/// What the client says. To be called within a runtime.
pub(crate) fn input() -> Input {
    #[cfg(unix)]
    if let Ok(Some(input)) = unix::input() {
        return input;
    }
    Box::new(tokio::io::stdin())
}

/// What the client hears, and the same once more to write to without waiting, if that can be. To be called within a runtime.
pub(crate) fn output() -> (Output, Option<ReadyOutput>) {
    #[cfg(unix)]
    if let Ok(Some((output, ready))) = unix::output() {
        return (output, Some(ready));
    }
    (Box::new(tokio::io::stdout()), None)
}

#[cfg(unix)]
mod unix {
    use super::{Input, Output, ReadyOutput};
    use std::fs::{File, FileType};
    use std::io;
    use std::os::fd::{AsFd, OwnedFd};
    use std::os::unix::fs::FileTypeExt;
    use std::os::unix::net::UnixStream as Socket;
    use tokio::net::UnixStream;
    use tokio::net::unix::pipe::{Receiver, Sender};

    pub(super) fn input() -> io::Result<Option<Input>> {
        let (file, kind) = opened(io::stdin())?;
        if kind.is_fifo() {
            return Ok(Some(Box::new(Receiver::from_file(file)?)));
        }
        Ok(socket(file, kind)?.map(|socket| Box::new(socket) as Input))
    }

    pub(super) fn output() -> io::Result<Option<(Output, ReadyOutput)>> {
        let (file, kind) = opened(io::stdout())?;
        let same = Box::new(file.try_clone()?);
        let output = match kind.is_fifo() {
            true => Some(Box::new(Sender::from_file(file)?) as Output),
            false => socket(file, kind)?.map(|socket| Box::new(socket) as Output),
        };
        Ok(output.map(|output| (output, same as ReadyOutput)))
    }

    /// A terminal, whose shell would be surprised by a stream that does not wait, and a file, which is always ready, are
    /// left as they are.
    fn opened(stream: impl AsFd) -> io::Result<(File, FileType)> {
        let file = File::from(stream.as_fd().try_clone_to_owned()?);
        let kind = file.metadata()?.file_type();
        Ok((file, kind))
    }

    fn socket(file: File, kind: FileType) -> io::Result<Option<UnixStream>> {
        if !kind.is_socket() {
            return Ok(None);
        }
        let socket = Socket::from(OwnedFd::from(file));
        // Fails if it is one of another kind.
        socket.local_addr()?;
        socket.set_nonblocking(true)?;
        UnixStream::from_std(socket).map(Some)
    }
}
