//! Connections from outside with limits: so many at once, and none that is silent for long. Without them, requests that
//! are begun and never ended would take every descriptor of the process.

use std::io;
use std::net::SocketAddr;
use std::pin::Pin;
use std::sync::Arc;
use std::task::{Context, Poll};
use std::time::Duration;

use axum::serve::Listener;
use tokio::io::{AsyncRead, AsyncWrite, ReadBuf};
use tokio::net::{TcpListener, TcpStream};
use tokio::sync::{OwnedSemaphorePermit, Semaphore};
use tokio::time::{Sleep, sleep};

/// The platform opens a hundred at most.
const MOST: usize = 256;

/// A request comes in one go; between two of a kept connection it may take so long.
const SILENT_FOR: Duration = Duration::from_secs(20);

/// Takes connections within the limits.
pub struct Limited {
    listener: TcpListener,
    free: Arc<Semaphore>,
    silent_for: Duration,
}

impl Limited {
    /// With the limits that hold for everybody.
    pub fn new(listener: TcpListener) -> Self {
        Self::with(listener, MOST, SILENT_FOR)
    }

    fn with(listener: TcpListener, most: usize, silent_for: Duration) -> Self {
        Self {
            listener,
            free: Arc::new(Semaphore::new(most)),
            silent_for,
        }
    }
}

impl Listener for Limited {
    type Io = Connection;
    type Addr = SocketAddr;

    async fn accept(&mut self) -> (Connection, SocketAddr) {
        // The semaphore is never closed; without a place it would only not count.
        let place = self.free.clone().acquire_owned().await.ok();
        let (stream, address) = Listener::accept(&mut self.listener).await;
        let connection = Connection {
            stream,
            silent_for: self.silent_for,
            ends: Box::pin(sleep(self.silent_for)),
            _place: place,
        };
        (connection, address)
    }

    fn local_addr(&self) -> io::Result<SocketAddr> {
        self.listener.local_addr()
    }
}

/// One that is closed when nothing comes for too long.
pub struct Connection {
    stream: TcpStream,
    silent_for: Duration,
    ends: Pin<Box<Sleep>>,
    _place: Option<OwnedSemaphorePermit>,
}

impl AsyncRead for Connection {
    fn poll_read(mut self: Pin<&mut Self>, context: &mut Context<'_>, into: &mut ReadBuf<'_>) -> Poll<io::Result<()>> {
        let read = Pin::new(&mut self.stream).poll_read(context, into);
        if read.is_ready() {
            self.ends = Box::pin(sleep(self.silent_for));
            return read;
        }
        self.ends
            .as_mut()
            .poll(context)
            .map(|()| Err(io::ErrorKind::TimedOut.into()))
    }
}

impl AsyncWrite for Connection {
    fn poll_write(mut self: Pin<&mut Self>, context: &mut Context<'_>, from: &[u8]) -> Poll<io::Result<usize>> {
        Pin::new(&mut self.stream).poll_write(context, from)
    }

    fn poll_flush(mut self: Pin<&mut Self>, context: &mut Context<'_>) -> Poll<io::Result<()>> {
        Pin::new(&mut self.stream).poll_flush(context)
    }

    fn poll_shutdown(mut self: Pin<&mut Self>, context: &mut Context<'_>) -> Poll<io::Result<()>> {
        Pin::new(&mut self.stream).poll_shutdown(context)
    }
}

#[cfg(test)]
mod tests {
    use tokio::io::{AsyncReadExt, AsyncWriteExt};

    use super::*;

    #[tokio::test]
    async fn a_request_that_is_never_ended_is_closed_and_frees_its_place() -> anyhow::Result<()> {
        let listener = TcpListener::bind("127.0.0.1:0").await?;
        let address = listener.local_addr()?;
        let routes = axum::Router::new().route("/", axum::routing::get(async || "good"));
        let limited = Limited::with(listener, 1, Duration::from_millis(50));
        let serving = tokio::spawn(async move { axum::serve(limited, routes).await });
        let mut half = TcpStream::connect(address).await?;
        half.write_all(b"GET / HTTP/1.1\r\nhost: x\r\n").await?;
        // There is one place, so this one is answered only once the other is closed.
        let mut whole = TcpStream::connect(address).await?;
        whole
            .write_all(b"GET / HTTP/1.1\r\nhost: x\r\nconnection: close\r\n\r\n")
            .await?;
        let mut answer = String::new();
        whole.read_to_string(&mut answer).await?;
        assert!(answer.starts_with("HTTP/1.1 200"), "{answer}");
        serving.abort();
        Ok(())
    }
}
