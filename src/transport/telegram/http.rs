//! Calls over kept connections: HTTP/1.1, plain or over TLS. A call costs less than half of what the general client
//! takes, which is left for uploads, downloads, and for hosts behind a proxy.

use std::sync::{Arc, Mutex, PoisonError};

use bytes::Bytes;
use http_body_util::{BodyExt, Full, Limited};
use hyper::client::conn::http1::{SendRequest, handshake};
use hyper::header::{CONTENT_TYPE, HOST};
use hyper::{Request, StatusCode};
use hyper_util::rt::TokioIo;
use reqwest::Url;
use tokio::io::{AsyncRead, AsyncWrite};
use tokio::net::TcpStream;
use tokio_rustls::TlsConnector;
use tokio_rustls::rustls::crypto::ring;
use tokio_rustls::rustls::pki_types::ServerName;
use tokio_rustls::rustls::{ClientConfig, RootCertStore};

use super::Trouble;

/// Connections that are kept while nobody uses them: as many as there are calls at once, and the poll.
const MOST_IDLE: usize = 40;

/// More than any answer has: a hundred updates of the longest texts.
const MOST_BYTES: usize = 32 << 20;

type Connection = SendRequest<Full<Bytes>>;

/// A way to one server.
pub(super) struct Http {
    host: String,
    port: u16,
    /// As the header says it.
    authority: String,
    tls: Option<(TlsConnector, ServerName<'static>)>,
    idle: Mutex<Vec<Connection>>,
}

impl Http {
    /// The way to the server of `url`; none where the environment names a proxy, or the address has no host.
    pub fn new(url: &Url) -> Option<Self> {
        if proxied() {
            return None;
        }
        let host = url.host_str()?.trim_matches(['[', ']']).to_owned();
        let port = url.port_or_known_default()?;
        let tls = match url.scheme() {
            "https" => Some((connector()?, ServerName::try_from(host.clone()).ok()?)),
            _ => None,
        };
        let authority = match url.port() {
            Some(port) => format!("{}:{port}", url.host_str()?),
            None => url.host_str()?.to_owned(),
        };
        Some(Self {
            host,
            port,
            authority,
            tls,
            idle: Mutex::default(),
        })
    }

    /// Posts JSON to a path; how long it may take is the caller's to say.
    pub async fn post(&self, path: &str, body: Vec<u8>) -> Result<(StatusCode, Bytes), Trouble> {
        let mut request = Request::post(path)
            .header(HOST, &self.authority)
            .header(CONTENT_TYPE, "application/json")
            .body(Full::new(Bytes::from(body)))
            .map_err(|_| broken())?;
        loop {
            let kept = self.idle.lock().unwrap_or_else(PoisonError::into_inner).pop();
            let fresh = kept.is_none();
            let mut connection = match kept {
                Some(connection) => connection,
                None => self.connect().await?,
            };
            if connection.ready().await.is_err() && !fresh {
                continue;
            }
            match connection.try_send_request(request).await {
                Ok(response) => {
                    let status = response.status();
                    let body = Limited::new(response.into_body(), MOST_BYTES).collect().await;
                    let body = body.map_err(|_| broken())?.to_bytes();
                    self.keep(connection);
                    return Ok((status, body));
                }
                // Nothing of it was sent, since the server had closed the connection: it goes on another one.
                Err(mut failed) => match failed.take_message() {
                    Some(unsent) if !fresh => request = unsent,
                    _ => return Err(broken()),
                },
            }
        }
    }

    fn keep(&self, connection: Connection) {
        let mut idle = self.idle.lock().unwrap_or_else(PoisonError::into_inner);
        if idle.len() < MOST_IDLE && !connection.is_closed() {
            idle.push(connection);
        }
    }

    async fn connect(&self) -> Result<Connection, Trouble> {
        let no_connection = || Trouble::Unreachable("no connection".to_owned());
        let stream = TcpStream::connect((self.host.as_str(), self.port)).await;
        let stream = stream.map_err(|_| no_connection())?;
        stream.set_nodelay(true).map_err(|_| no_connection())?;
        match &self.tls {
            Some((connector, name)) => {
                let secured = connector.connect(name.clone(), stream).await;
                open(secured.map_err(|_| no_connection())?).await
            }
            None => open(stream).await,
        }
    }
}

async fn open(stream: impl AsyncRead + AsyncWrite + Unpin + Send + 'static) -> Result<Connection, Trouble> {
    let (connection, driver) = handshake(TokioIo::new(stream)).await.map_err(|_| broken())?;
    // It ends with the connection; what went wrong is told to whoever called.
    tokio::spawn(async move {
        let _ = driver.await;
    });
    Ok(connection)
}

/// Trusts whom browsers trust; none when the library knows no protocol.
fn connector() -> Option<TlsConnector> {
    let roots = RootCertStore {
        roots: webpki_roots::TLS_SERVER_ROOTS.to_vec(),
    };
    let config = ClientConfig::builder_with_provider(Arc::new(ring::default_provider()))
        .with_safe_default_protocol_versions()
        .ok()?;
    let config = config.with_root_certificates(roots).with_no_client_auth();
    Some(TlsConnector::from(Arc::new(config)))
}

/// Whether the host's programs are to go through a proxy, by the usual variables.
fn proxied() -> bool {
    [
        "HTTPS_PROXY",
        "https_proxy",
        "HTTP_PROXY",
        "http_proxy",
        "ALL_PROXY",
        "all_proxy",
    ]
    .iter()
    .any(|name| std::env::var_os(name).is_some_and(|value| !value.is_empty()))
}

fn broken() -> Trouble {
    Trouble::Unreachable("the connection broke".to_owned())
}
