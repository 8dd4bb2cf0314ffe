//! The real loops in this process, against a stand-in of the Bot API.

use std::process::ExitCode;
use std::sync::Arc;
use std::time::Duration;

use secrecy::ExposeSecret;
use sqlx::AssertSqlSafe;
use tapside::bot::{Bot, BotSettings, Tokens};
use tapside::clock;
use tapside::config::{LogLevel, Settings, limits};
use tapside::domain::envelope::{Body, Handling, Outgoing};
use tapside::serve::run_until;
use tapside::store::{Store, sends};
use tokio::sync::oneshot;
use tokio::task::JoinHandle;

use super::api_stand_in::{Model, StandIn, TOKEN};
use super::database::{self, Guard};

/// A bot that runs within the test.
pub struct Server {
    pub api: StandIn,
    pub store: Store,
    pub url: String,
    pub stop: Option<oneshot::Sender<()>>,
    pub running: JoinHandle<anyhow::Result<ExitCode>>,
    pub _guard: Guard,
}

impl Server {
    pub async fn start() -> Self {
        Self::start_against(StandIn::start().await).await
    }

    pub async fn start_against(api: StandIn) -> Self {
        Self::start_with(api, |_| {}).await
    }

    pub async fn start_with(api: StandIn, change: impl FnOnce(&mut Settings)) -> Self {
        let (url, guard) = database::fresh_url().await;
        let store = Store::open(&url).await.unwrap();
        store.migrate().await.unwrap();
        let mut settings = settings(&api, &url, "one");
        change(&mut settings);
        let (stop, running) = run_with(settings).await;
        Self {
            api,
            store,
            url,
            stop: Some(stop),
            running,
            _guard: guard,
        }
    }

    /// Queues texts from outside, as a reading's answer is queued from inside.
    pub async fn queue(&self, chat: &str, texts: &[&str]) {
        let bodies = texts.iter().map(|text| say(text)).collect();
        self.queue_bodies(chat, bodies).await;
    }

    pub async fn queue_bodies(&self, chat: &str, bodies: Vec<Body>) {
        let mut tx = self.store.begin().await.unwrap();
        for body in bodies {
            let outgoing = Outgoing {
                chat: chat.to_owned(),
                body,
                source_key: None,
                handling: Handling::default(),
            };
            sends::queue(&mut tx, &outgoing, clock::now()).await.unwrap();
        }
        tx.commit().await.unwrap();
    }

    pub async fn execute(&self, statements: &[&str]) {
        let mut tx = self.store.begin().await.unwrap();
        for statement in statements {
            sqlx::raw_sql(AssertSqlSafe((*statement).to_owned()))
                .execute(&mut *tx)
                .await
                .unwrap();
        }
        tx.commit().await.unwrap();
    }

    pub async fn count(&self, sql: &'static str) -> i64 {
        let mut tx = self.store.begin().await.unwrap();
        sqlx::query_scalar(sql).fetch_one(&mut *tx).await.unwrap()
    }

    /// Stops the bot, and sees it end well. The database lives as long as its guard.
    pub async fn stop(mut self) -> (StandIn, Store, Guard) {
        self.stop.take().unwrap().send(()).unwrap();
        let ended = tokio::time::timeout(Duration::from_secs(5), &mut self.running).await;
        let code = ended.expect("it stops within 5 s").unwrap().unwrap();
        assert_eq!(format!("{code:?}"), format!("{:?}", ExitCode::SUCCESS));
        (self.api, self.store, self._guard)
    }
}

/// What stops a bot that runs, and its end.
pub type Running = (oneshot::Sender<()>, JoinHandle<anyhow::Result<ExitCode>>);

pub async fn run(api: &StandIn, url: &str, instance: &str) -> Running {
    run_with(settings(api, url, instance)).await
}

pub fn settings(api: &StandIn, url: &str, instance: &str) -> Settings {
    Settings {
        token: Some(TOKEN.to_owned().into()),
        database_url: url.to_owned().into(),
        api_url: api.api_url().parse().unwrap(),
        zone: "UTC".to_owned(),
        limits: limits(0, 0),
        instance: instance.to_owned(),
        listen: None,
        webhook_url: None,
        webhook_secret: None,
        log: LogLevel::Info,
    }
}

pub async fn run_with(settings: Settings) -> Running {
    let store = Store::open(settings.database_url.expose_secret()).await.unwrap();
    let bot = Bot::new(
        store,
        BotSettings {
            zone: settings.zone.clone(),
            tokens: Tokens::Random,
        },
    );
    let (stop, stopped) = oneshot::channel();
    let running = tokio::spawn(run_until(settings, Arc::new(bot), async move {
        let _ = stopped.await;
    }));
    (stop, running)
}

pub fn say(text: &str) -> Body {
    Body::Say {
        text: text.to_owned(),
        buttons: Vec::new(),
        reply_to: None,
    }
}

pub fn texts_to(model: &Model, chat: i64) -> Vec<String> {
    model
        .sent()
        .iter()
        .filter(|call| call.chat() == chat)
        .map(|call| call.text().to_owned())
        .collect()
}
