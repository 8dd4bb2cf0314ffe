//! The command menus: told once, told again when they change, taken away from
//! whoever leads no longer.

use std::time::Duration;

use insta::assert_snapshot;
use serde_json::{Value, json};

use tapside::replies::words::LANGUAGES;

use super::api_stand_in::Model;
use super::served::{Server, run};

fn offered(menu: &Value) -> Vec<&str> {
    let commands = menu["commands"].as_array().unwrap();
    commands
        .iter()
        .map(|entry| entry["command"].as_str().unwrap())
        .collect()
}

async fn restart(server: &mut Server) {
    server.stop.take().unwrap().send(()).unwrap();
    let ended = tokio::time::timeout(Duration::from_secs(5), &mut server.running).await;
    ended.expect("it stops within 5 s").unwrap().unwrap();
    let (stop, running) = run(&server.api, &server.url, "one").await;
    (server.stop, server.running) = (Some(stop), running);
}

fn count(wanted: usize) -> impl Fn(&Model) -> bool {
    move |model| model.menus.len() == wanted
}

/// What was told and not written down yet would be told again.
async fn written_down(server: &Server, menus: usize) {
    let seen = async { while server.count("select count(*) from menus").await != menus as i64 {} };
    tokio::time::timeout(Duration::from_secs(5), seen).await.unwrap();
}

#[tokio::test]
async fn menus_are_told_once_and_follow_the_role() {
    let mut server = Server::start().await;
    let default = |model: &Model| {
        model
            .menus
            .iter()
            .filter(|(_, menu)| menu["scope"]["type"] == "default")
            .count()
    };
    let everybody = LANGUAGES.len();
    server
        .api
        .until("everybody's are told", |model| default(model) == everybody)
        .await;
    server
        .execute(&[
            "insert into outfits (name, zone, day_ends, us_to_ppm, degrees, created_at)
             values ('Blue Ladder', 'UTC', '17:00', 0.5, 'c', 1)",
            "insert into people (address, chat, first_name, outfit_id, role, joined_at)
             select 'tg:70', 'tg:70', 'Ada', max(id), 'owner', 1 from outfits",
            "insert into people (address, chat, first_name, outfit_id, role, joined_at)
             select 'tg:71', 'tg:71', 'Bea', max(id), 'crew', 1 from outfits",
        ])
        .await;
    written_down(&server, everybody).await;
    restart(&mut server).await;
    server.api.until("the owner's is told", count(everybody + 1)).await;
    server.api.with(|model| {
        let (method, menu) = &model.menus[0];
        assert_eq!(method, "setmycommands");
        assert_eq!(
            (&menu["scope"], &menu["language_code"]),
            (&json!({"type": "default"}), &Value::Null)
        );
        assert!(!offered(menu).contains(&"invite") && offered(menu).contains(&"help"));
        let (method, menu) = model.menus.last().unwrap();
        assert_eq!(method, "setmycommands");
        assert_eq!(menu["scope"], json!({"type": "chat", "chat_id": 70}));
        assert!(offered(menu).contains(&"invite"));
    });
    written_down(&server, everybody + 1).await;
    server
        .execute(&["update people set role = 'crew' where address = 'tg:70'"])
        .await;
    restart(&mut server).await;
    server.api.until("it is taken away", count(everybody + 2)).await;
    server.api.with(|model| {
        let (method, menu) = model.menus.last().unwrap();
        assert_eq!(method, "deletemycommands");
        assert_eq!(menu, &json!({"scope": {"type": "chat", "chat_id": 70}}));
    });
    written_down(&server, everybody).await;
    server.stop().await;
}

/// Whom a menu is for and what it offers, as people see it.
fn shown(menu: &Value) -> String {
    let whose = match menu["scope"]["chat_id"].as_i64() {
        Some(chat) => format!("in chat {chat}"),
        None => "everybody".to_owned(),
    };
    let language = menu["language_code"]
        .as_str()
        .map_or(String::new(), |tag| format!(", {tag}"));
    let commands = menu["commands"].as_array().unwrap();
    let line = |entry: &Value| {
        let text = |key: &str| entry[key].as_str().unwrap().to_owned();
        format!("\n  /{} - {}", text("command"), text("description"))
    };
    format!("{whose}{language}{}\n", commands.iter().map(line).collect::<String>())
}

#[tokio::test]
async fn each_role_sees_what_it_may_do_in_its_own_language() {
    let mut server = Server::start().await;
    let everybody = LANGUAGES.len();
    server.api.until("everybody's are told", count(everybody)).await;
    server
        .execute(&[
            "insert into outfits (name, zone, day_ends, us_to_ppm, degrees, created_at)
             values ('Blue Ladder', 'UTC', '17:00', 0.5, 'c', 1)",
            "insert into people (address, chat, first_name, language, outfit_id, role, joined_at)
             select 'tg:70', 'tg:70', 'owner', 'en', max(id), 'owner', 1 from outfits",
            "insert into people (address, chat, first_name, language, outfit_id, role, joined_at)
             select 'tg:71', 'tg:71', 'lead', 'es', max(id), 'lead', 1 from outfits",
        ])
        .await;
    written_down(&server, everybody).await;
    restart(&mut server).await;
    server.api.until("the two are told", count(everybody + 2)).await;
    let menus = server.api.with(|model| {
        let mut menus: Vec<String> = model.menus.iter().map(|(_, menu)| shown(menu)).collect();
        menus.sort();
        menus.join("\n")
    });
    assert_snapshot!(menus, @r"
    everybody
      /fleet - All rigs at a glance
      /picture - The fleet as a picture
      /history - The last readings of a rig
      /undo - Undo the last thing you sent
      /help - How to send a reading

    everybody, es
      /fleet - Todos los equipos de un vistazo
      /picture - La flota en una imagen
      /history - Las últimas lecturas de un equipo
      /undo - Anular lo último que mandaste
      /help - Cómo mandar una lectura

    in chat 70
      /fleet - All rigs at a glance
      /picture - The fleet as a picture
      /history - The last readings of a rig
      /digest - This week's jobs
      /spreadsheet - The week as a spreadsheet
      /settings - Prices, hours and other settings
      /undo - Undo the last thing you sent
      /people - Who is in the outfit
      /invite - A link for somebody new
      /help - How to send a reading

    in chat 71
      /fleet - Todos los equipos de un vistazo
      /picture - La flota en una imagen
      /history - Las últimas lecturas de un equipo
      /digest - Los trabajos de la semana
      /spreadsheet - La semana como hoja de cálculo
      /settings - Precios, horas y otros ajustes
      /undo - Anular lo último que mandaste
      /people - Quién está en la empresa
      /invite - Un enlace para alguien nuevo
      /help - Cómo mandar una lectura
    ");
    server.stop().await;
}
