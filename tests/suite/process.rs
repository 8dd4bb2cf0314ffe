//! The real program as a child process: its log, its signals, its end.

use std::process::{ExitStatus, Stdio};
use std::sync::{Arc, Mutex};
use std::time::Duration;

use tokio::io::{AsyncBufReadExt, BufReader};
use tokio::process::{Child, Command};
use tokio::sync::watch;

use super::api_stand_in::{StandIn, TOKEN};

/// A running `tapside serve`.
pub struct Process {
    child: Child,
    log: Arc<Mutex<Vec<String>>>,
    grown: watch::Receiver<usize>,
}

impl Process {
    /// Starts the program against the stand-in, with no limits on its pace.
    pub fn serve(api: &StandIn, database_url: &str) -> Self {
        let mut command = bare();
        command.args([
            "serve",
            "--sends-per-second",
            "0",
            "--chat-gap",
            "0",
            "--log",
            "debug",
            "--zone",
            "UTC",
        ]);
        command
            .args(["--api-url", &api.api_url()])
            .env("DATABASE_URL", database_url)
            .env("TAPSIDE_TOKEN", TOKEN);
        Self::spawn(command)
    }

    /// Starts what is given.
    pub fn spawn(mut command: Command) -> Self {
        let mut child = command
            .stderr(Stdio::piped())
            .stdout(Stdio::null())
            .kill_on_drop(true)
            .spawn()
            .unwrap();
        let mut lines = BufReader::new(child.stderr.take().unwrap()).lines();
        let log = Arc::new(Mutex::new(Vec::new()));
        let (grow, grown) = watch::channel(0);
        let kept = log.clone();
        tokio::spawn(async move {
            while let Ok(Some(line)) = lines.next_line().await {
                kept.lock().unwrap().push(line);
                grow.send_modify(|lines| *lines += 1);
            }
        });
        Self { child, log, grown }
    }

    /// Everything that was logged so far.
    pub fn log(&self) -> String {
        self.log.lock().unwrap().join("\n")
    }

    /// Waits for a line with `words` in it.
    pub async fn says(&mut self, words: &str) -> String {
        let log = self.log.clone();
        let find = || log.lock().unwrap().iter().find(|line| line.contains(words)).cloned();
        let found = async {
            loop {
                if let Some(line) = find() {
                    return Some(line);
                }
                if self.grown.changed().await.is_err() {
                    return find();
                }
            }
        };
        let found = tokio::time::timeout(Duration::from_secs(30), found)
            .await
            .ok()
            .flatten();
        found.unwrap_or_else(|| panic!("no line with {words:?} in\n{}", self.log()))
    }

    /// Asks it to stop, as a service manager does.
    pub async fn terminate(&self) {
        let id = self.child.id().expect("it runs").to_string();
        assert!(
            Command::new("kill")
                .args(["-TERM", &id])
                .status()
                .await
                .unwrap()
                .success()
        );
    }

    /// Kills it, as a power cut would.
    pub async fn kill(&mut self) {
        self.child.kill().await.unwrap();
    }

    /// Waits for its end.
    pub async fn ends(&mut self, within: Duration) -> ExitStatus {
        let ended = tokio::time::timeout(within, self.child.wait()).await;
        let status = ended
            .unwrap_or_else(|_| panic!("still running:\n{}", self.log()))
            .unwrap();
        // Its last words are read before its log is looked at.
        while self.grown.changed().await.is_ok() {}
        status
    }
}

/// The program, with nothing of this environment and no .env file.
pub fn bare() -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_tapside"));
    command.env_clear().current_dir(std::env::temp_dir());
    command
}
