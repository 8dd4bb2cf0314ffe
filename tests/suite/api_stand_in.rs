//! A stand-in of the Bot API over loopback: a queue of updates, a record of
//! what was sent, and faults on order.

use std::collections::{HashMap, VecDeque};
use std::net::SocketAddr;
use std::sync::{Arc, Mutex};
use std::time::{Duration, Instant};

use axum::body::{Body, Bytes};
use axum::extract::{Path, State};
use axum::http::{HeaderMap, StatusCode};
use axum::response::{IntoResponse, Response};
use axum::routing::{get, post};
use axum::{Json, Router};
use serde_json::{Value, json};
use tokio::net::TcpListener;
use tokio::sync::watch;

use super::api_forms::{self, Upload};

/// The only token that the stand-in knows.
pub const TOKEN: &str = "4242:stand-in-secret";

/// Tests fail, rather than hang, after this long.
const PATIENCE: Duration = Duration::from_secs(60);

/// What goes wrong with a call.
#[derive(Clone, Debug)]
pub enum Fault {
    /// 429 with this `retry_after`.
    TooFast(i64),
    /// 502 with a page of HTML.
    BadGateway,
    /// 200 with a page of HTML.
    Html,
    /// The connection breaks; nothing is done.
    Drop,
    /// It is done, and the connection breaks before the answer.
    LoseAnswer,
    /// The API says no.
    Refuse(u16, &'static str),
    /// The group has another id now.
    Moved(i64),
    /// The call waits until the model's `hold` is false.
    Hold,
}

/// A call that sends: `sendMessage`, or one with files.
#[derive(Clone, Debug)]
pub struct Call {
    pub at: Instant,
    /// In small letters.
    pub method: String,
    pub body: Value,
    pub files: Vec<Upload>,
    /// Whether a message came of it.
    pub done: bool,
}

impl Call {
    pub fn chat(&self) -> i64 {
        self.body["chat_id"].as_i64().unwrap()
    }

    /// The words: a text or a caption.
    pub fn text(&self) -> &str {
        let places = [
            &self.body["text"],
            &self.body["caption"],
            &self.body["media"][0]["caption"],
        ];
        places.iter().find_map(|place| place.as_str()).unwrap_or_default()
    }
}

/// Everything that the stand-in knows.
#[derive(Default)]
pub struct Model {
    /// Not confirmed yet.
    pub updates: VecDeque<Value>,
    /// Everything below is confirmed.
    pub confirmed: i64,
    /// The polls that came, as they came.
    pub polls: Vec<Value>,
    /// When updates were handed out, and how many.
    pub handed_out: Vec<(Instant, usize)>,
    pub calls: Vec<Call>,
    /// Menus as they were set, or taken away.
    pub menus: Vec<(String, Value)>,
    /// Where and how to call, as it was told last; null if it is to be asked.
    pub webhook: Option<Value>,
    /// Acknowledged presses.
    pub acknowledged: Vec<Value>,
    pub poll_faults: VecDeque<Fault>,
    pub send_faults: VecDeque<Fault>,
    pub press_faults: VecDeque<Fault>,
    pub me_faults: VecDeque<Fault>,
    /// Files that people sent, by id.
    pub files: HashMap<String, Vec<u8>>,
    /// While true, calls with [`Fault::Hold`] wait.
    pub hold: bool,
    last_update: i64,
    last_message: i64,
}

impl Model {
    /// The messages that came of calls.
    pub fn sent(&self) -> Vec<&Call> {
        self.calls.iter().filter(|call| call.done).collect()
    }

    /// Queues an update; returns its id.
    pub fn push(&mut self, mut update: Value) -> i64 {
        self.last_update = self.last_update.max(100) + 1;
        update["update_id"] = json!(self.last_update);
        self.updates.push_back(update);
        self.last_update
    }

    /// Somebody texts, in private if the chat is their own; returns the
    /// update's id.
    pub fn text(&mut self, chat: i64, person: i64, text: &str) -> i64 {
        self.last_message += 1;
        let kind = if chat == person { "private" } else { "supergroup" };
        let date = tapside::clock::now();
        self.push(json!({"message": {
            "message_id": self.last_message, "date": date, "text": text, "chat": {"id": chat, "type": kind},
            "from": {"id": person, "is_bot": false, "first_name": "Ada", "language_code": "en"},
        }}))
    }
}

/// The stand-in, as a test holds it.
#[derive(Clone)]
pub struct StandIn {
    pub address: SocketAddr,
    model: Arc<Mutex<Model>>,
    changed: watch::Sender<u64>,
}

impl StandIn {
    /// A stand-in that answers.
    pub async fn start() -> Self {
        let listener = TcpListener::bind("127.0.0.1:0").await.unwrap();
        let stand_in = Self::at(listener.local_addr().unwrap());
        stand_in.serve(listener);
        stand_in
    }

    /// A stand-in that nobody can reach until it comes up.
    pub async fn down() -> Self {
        let listener = TcpListener::bind("127.0.0.1:0").await.unwrap();
        Self::at(listener.local_addr().unwrap())
    }

    /// Comes up.
    pub async fn come_up(&self) {
        self.serve(TcpListener::bind(self.address).await.unwrap());
    }

    fn at(address: SocketAddr) -> Self {
        Self {
            address,
            model: Arc::default(),
            changed: watch::Sender::new(0),
        }
    }

    fn serve(&self, listener: TcpListener) {
        let routes = Router::new()
            .route("/{bot}/{method}", post(answer))
            .route("/file/{bot}/files/{name}", get(download))
            .with_state(self.clone());
        tokio::spawn(async move { axum::serve(listener, routes).await });
    }

    pub fn api_url(&self) -> String {
        format!("http://{}", self.address)
    }

    /// Looks at or changes the model.
    pub fn with<T>(&self, act: impl FnOnce(&mut Model) -> T) -> T {
        let made = act(&mut self.model.lock().unwrap());
        self.changed.send_modify(|count| *count += 1);
        made
    }

    /// Waits until the model is as wanted.
    pub async fn until(&self, what: &str, wanted: impl Fn(&Model) -> bool) {
        let mut changed = self.changed.subscribe();
        let seen = async {
            while !wanted(&self.model.lock().unwrap()) {
                changed.changed().await.unwrap();
            }
        };
        if tokio::time::timeout(PATIENCE, seen).await.is_err() {
            let model = self.model.lock().unwrap();
            panic!(
                "waited in vain until {what}; {} updates wait, calls: {:#?}",
                model.updates.len(),
                model.calls
            );
        }
    }
}

async fn answer(
    State(stand_in): State<StandIn>,
    Path((bot, method)): Path<(String, String)>,
    headers: HeaderMap,
    body: Bytes,
) -> Response {
    if bot != format!("bot{TOKEN}") {
        return refuse(401, "Unauthorized");
    }
    let kind = headers["content-type"].to_str().unwrap();
    let (body, files) = if kind.starts_with("multipart/form-data") {
        api_forms::read(kind, &body)
    } else {
        (serde_json::from_slice(&body).unwrap(), Vec::new())
    };
    // The API takes method names in any case, and the library writes them in its own.
    let method = method.to_ascii_lowercase();
    match method.as_str() {
        "getme" => {
            let me = json!({"id": 4242, "is_bot": true, "first_name": "Tap", "username": "tap_stand_in_bot"});
            stand_in
                .with(|model| model.me_faults.pop_front())
                .map_or_else(|| good(&me), |fault| broken(&fault))
        }
        "getfile" => {
            let id = body["file_id"].as_str().unwrap();
            good(&json!({"file_id": id, "file_path": format!("files/{id}")}))
        }
        "getupdates" => updates(&stand_in, body).await,
        "sendmessage" | "sendphoto" | "sendmediagroup" | "senddocument" => send(&stand_in, method, body, files).await,
        "setwebhook" | "deletewebhook" => {
            let told = if method == "setwebhook" { body } else { Value::Null };
            stand_in.with(|model| model.webhook = Some(told));
            good(&json!(true))
        }
        "setmycommands" | "deletemycommands" => {
            stand_in.with(|model| model.menus.push((method, body)));
            good(&json!(true))
        }
        "answercallbackquery" => {
            let fault = stand_in.with(|model| {
                model.acknowledged.push(body);
                model.press_faults.pop_front()
            });
            fault.map_or_else(|| good(&json!(true)), |fault| broken(&fault))
        }
        _ => refuse(404, "Not Found: method not found"),
    }
}

async fn download(State(stand_in): State<StandIn>, Path((bot, name)): Path<(String, String)>) -> Response {
    let file = stand_in.with(|model| model.files.get(&name).cloned());
    match file.filter(|_| bot == format!("bot{TOKEN}")) {
        Some(bytes) => bytes.into_response(),
        None => refuse(404, "Not Found"),
    }
}

async fn updates(stand_in: &StandIn, ask: Value) -> Response {
    let offset = ask["offset"].as_i64().unwrap();
    let wait = Duration::from_secs(ask["timeout"].as_u64().unwrap());
    let fault = stand_in.with(|model| {
        model.polls.push(ask);
        let fault = model.poll_faults.pop_front();
        if fault.is_none() {
            model.confirmed = model.confirmed.max(offset);
            model
                .updates
                .retain(|update| update["update_id"].as_i64().is_none_or(|id| id >= offset));
        }
        fault
    });
    if let Some(fault) = fault {
        return broken(&fault);
    }
    let mut changed = stand_in.changed.subscribe();
    let some = changed.wait_for(|_| !stand_in.model.lock().unwrap().updates.is_empty());
    let _ = tokio::time::timeout(wait, some).await;
    let batch: Vec<Value> = stand_in.with(|model| {
        let batch: Vec<Value> = model.updates.iter().take(100).cloned().collect();
        if !batch.is_empty() {
            model.handed_out.push((Instant::now(), batch.len()));
        }
        batch
    });
    good(&json!(batch))
}

async fn send(stand_in: &StandIn, method: String, body: Value, files: Vec<Upload>) -> Response {
    let chat = body["chat_id"].clone();
    let album = body.get("media").and_then(Value::as_array).map(Vec::len);
    let (fault, message) = stand_in.with(|model| {
        let fault = model.send_faults.pop_front();
        let done = matches!(fault, None | Some(Fault::LoseAnswer | Fault::Hold));
        model.calls.push(Call {
            at: Instant::now(),
            method,
            body,
            files,
            done,
        });
        let first = model.last_message + 1;
        model.last_message += album.unwrap_or(1) as i64;
        (fault, first)
    });
    match fault {
        Some(Fault::Hold) => {
            let mut changed = stand_in.changed.subscribe();
            let _ = changed.wait_for(|_| !stand_in.model.lock().unwrap().hold).await;
        }
        Some(fault) => return broken(&fault),
        None => {}
    }
    let made = |id: i64| json!({"message_id": id, "date": 1, "chat": {"id": chat, "type": "private"}, "of a shape": {"to": "come"}});
    good(&match album {
        Some(count) => (0..count as i64).map(|index| made(message + index)).collect(),
        None => made(message),
    })
}

fn broken(fault: &Fault) -> Response {
    match fault {
        Fault::TooFast(seconds) => {
            let parameters = json!({"retry_after": seconds});
            no(
                429,
                json!({"description": "Too Many Requests: retry later", "parameters": parameters}),
            )
        }
        Fault::Moved(id) => {
            let parameters = json!({"migrate_to_chat_id": id});
            no(
                400,
                json!({"description": "Bad Request: group chat was upgraded", "parameters": parameters}),
            )
        }
        Fault::BadGateway => (StatusCode::BAD_GATEWAY, "<html><h1>502 Bad Gateway</h1></html>").into_response(),
        Fault::Html => (StatusCode::OK, "<html>Log in to the hotel network</html>").into_response(),
        Fault::Refuse(code, description) => refuse(*code, description),
        Fault::Drop | Fault::LoseAnswer | Fault::Hold => {
            let cut = futures_util::stream::iter([Err::<Bytes, _>(std::io::Error::other("cut"))]);
            Body::from_stream(cut).into_response()
        }
    }
}

fn good(result: &Value) -> Response {
    Json(json!({"ok": true, "result": result})).into_response()
}

fn refuse(code: u16, description: &str) -> Response {
    no(code, json!({"description": description}))
}

fn no(code: u16, mut answer: Value) -> Response {
    answer["ok"] = json!(false);
    answer["error_code"] = json!(code);
    (StatusCode::from_u16(code).unwrap(), Json(answer)).into_response()
}
