//! The server of one pattern.

use crate::door::{guard, secret};
use crate::line::PageConnection;
use crate::looking::{ChangeCounts, Sight, look_on};
use crate::owner::Owner;
use crate::page::ASSETS;
use axum::Router;
use axum::extract::State;
use axum::extract::ws::WebSocketUpgrade;
use axum::http::header;
use axum::response::Response;
use axum::routing::get;
use std::fmt;
use std::io;
use std::net::{Ipv4Addr, TcpListener};
use std::sync::Arc;
use tokio::sync::watch;

/// Syntax trees are as deep as blocks are nested, and those are bounded.
const STACK: usize = 4 << 20;

/// What a page sends is short.
const LONGEST_MESSAGE: usize = 64 << 10;

/// A live picture that is being served. It ends when it is dropped.
#[derive(Debug)]
pub struct Preview {
    address: String,
    place: PreviewPlace,
    changes: watch::Sender<ChangeCounts>,
    cursor: watch::Sender<Option<u32>>,
}

/// Where a page is served. As text, it is the port and the secret with a space between.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PreviewPlace {
    port: u16,
    secret: String,
}

impl fmt::Display for PreviewPlace {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.port, self.secret)
    }
}

impl PreviewPlace {
    /// Reads what [`Display`](fmt::Display) wrote; nothing else is a place.
    pub fn read(text: &str) -> Option<Self> {
        let (port, secret) = text.trim_end().split_once(' ')?;
        let is_secret = secret.len() == 32 && secret.bytes().all(|byte| byte.is_ascii_hexdigit());
        let port = port.parse().ok().filter(|port| *port > 0)?;
        is_secret.then(|| Self { port, secret: secret.to_owned() })
    }
}

/// What all lines of a preview share.
#[derive(Clone)]
pub(crate) struct Shared {
    pub(crate) owner: Arc<dyn Owner>,
    pub(crate) sight: watch::Receiver<Sight>,
    pub(crate) cursor: watch::Receiver<Option<u32>>,
}

impl Preview {
    /// Begins to serve, on a thread of its own.
    ///
    /// # Errors
    /// The system gives no port, no thread or no secret.
    pub fn start(owner: Arc<dyn Owner>) -> io::Result<Self> {
        Self::start_at(owner, None)
    }

    /// Begins to serve where it was served before, so that open pages find it again; elsewhere if that port is taken.
    ///
    /// # Errors
    /// The system gives no port, no thread or no secret.
    pub fn start_at(owner: Arc<dyn Owner>, before: Option<PreviewPlace>) -> io::Result<Self> {
        let again = before.and_then(|place| {
            let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, place.port)).ok()?;
            Some((listener, place.secret))
        });
        let (listener, secret) = match again {
            Some(again) => again,
            None => (TcpListener::bind((Ipv4Addr::LOCALHOST, 0))?, secret()?),
        };
        listener.set_nonblocking(true)?;
        let at = listener.local_addr()?;
        let address = format!("http://{at}/{secret}/");
        let place = PreviewPlace { port: at.port(), secret: secret.clone() };
        let runtime = tokio::runtime::Builder::new_current_thread()
            .enable_all()
            .max_blocking_threads(3)
            .thread_stack_size(STACK)
            .build()?;
        let (changes, changed) = watch::channel(ChangeCounts::default());
        let (cursor, cursor_moved) = watch::channel(None);
        let serving = move || {
            runtime.block_on(serve(listener, &secret, owner, changed, cursor_moved));
            runtime.shutdown_background();
        };
        std::thread::Builder::new().name("preview".to_owned()).spawn(serving)?;
        Ok(Self { address, place, changes, cursor })
    }

    /// Where the page is. Whoever has the address may look.
    pub fn address(&self) -> &str {
        &self.address
    }

    /// Where to serve again next time.
    pub fn place(&self) -> &PreviewPlace {
        &self.place
    }

    /// The text, or a file it uses, is another one now. Returns at once.
    pub fn changed(&self) {
        self.changes.send_modify(|changes| changes.number += 1);
    }

    /// From now on another pattern is shown. Returns at once.
    pub fn turned(&self) {
        self.changes.send_modify(|changes| changes.turns += 1);
    }

    /// The cursor is at this byte of the newest text, or not in it at all. Returns at once.
    pub fn cursor(&self, at: Option<u32>) {
        self.cursor.send_replace(at);
    }
}

/// Until the owner is gone.
async fn serve(
    listener: TcpListener,
    secret: &str,
    owner: Arc<dyn Owner>,
    changes: watch::Receiver<ChangeCounts>,
    cursor: watch::Receiver<Option<u32>>,
) {
    let (seen, sight) = watch::channel(Sight::default());
    let shared = Shared { owner: Arc::clone(&owner), sight, cursor };
    let app = ASSETS.iter().fold(Router::new(), |app, (name, media, text)| {
        app.route(&format!("/{secret}/{name}"), get(|| async { ([(header::CONTENT_TYPE, *media)], *text) }))
    });
    let app = app
        .route(&format!("/{secret}/line"), get(open_line))
        .fallback(|| async { (axum::http::StatusCode::FORBIDDEN, "There is nothing at this address.") })
        .layer(axum::middleware::from_fn(guard))
        .with_state(shared);
    let Ok(listener) = tokio::net::TcpListener::from_std(listener) else { return };
    tokio::select! {
        // It ends when the owner is gone; then the runtime drops every line.
        () = look_on(owner, changes, seen) => {}
        _ = axum::serve(listener, app) => {}
    }
}

async fn open_line(State(shared): State<Shared>, upgrade: WebSocketUpgrade) -> Response {
    upgrade
        .max_message_size(LONGEST_MESSAGE)
        .on_upgrade(move |socket| PageConnection::new(shared).run(socket))
}
