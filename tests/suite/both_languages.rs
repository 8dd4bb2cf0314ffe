//! What a conversation cannot show, in both languages: namesakes, large files,
//! what the host or the platform decides.

use insta::assert_snapshot;
use tapside::bot::MOST_FILE_BYTES;
use tapside::domain::envelope::Happening;

use crate::world::{DAY, World, arrived};

/// An outfit whose owner is answered in Spanish.
async fn spanish() -> World {
    let mut world = World::new().await;
    world.says("owner", "idioma español").await;
    world
}

#[tokio::test]
async fn an_invite_is_a_link_to_tap_and_a_text_to_type() {
    for (mut world, spanish) in [(World::new().await, false), (spanish().await, true)] {
        world
            .desk
            .bot()
            .set_link("https://chat.example/yard_water_bot?start=".to_owned());
        let invite = world.says("owner", "invite").await;
        if spanish {
            assert_snapshot!(invite, @r"
            bot: Compártelo con tu gente. Deja entrar a 10 como operario y vale 7 días:
                 https://chat.example/yard_water_bot?start=token0003
                 O escriben al bot: /start token0003
            ");
        } else {
            assert_snapshot!(invite, @r"
            bot: Share this with your crew. It lets 10 people in as crew and works for 7 days:
                 https://chat.example/yard_water_bot?start=token0003
                 Or they type to the bot: /start token0003
            ");
        }
    }
}

#[tokio::test]
async fn of_two_with_one_name_the_right_one_is_asked_for() {
    let mut world = World::new().await;
    let link = world.invite().await;
    for who in ["newcomer-1", "newcomer-2"] {
        world.joins_as(who, "Ana", &link).await;
    }
    assert_snapshot!(world.says("owner", "make ana lead").await, @r"
    bot: Which one? Or type the number behind the name: ana 1
         1 Ana, crew
         2 Ana, crew
         [1 Ana, crew]  [2 Ana, crew]
    ");
    assert_snapshot!(world.says("owner", "hand over to ana").await, @r"
    bot: Which one? Or type the number behind the name: ana 1
         1 Ana, crew
         2 Ana, crew
         [1 Ana, crew]  [2 Ana, crew]
    ");
    world.says("owner", "idioma español").await;
    assert_snapshot!(world.says("owner", "hacer encargado a ana").await, @r"
    bot: ¿Quién? O escribe el número detrás del nombre: ana 1
         1 Ana, operario
         2 Ana, operario
         [1 Ana, operario]  [2 Ana, operario]
    ");
    assert_snapshot!(world.says("owner", "[1 Ana, operario]").await, @r"
    bot to newcomer-1: You're now lead in My outfit. What you can type: help
    bot: Ana: desde ahora, encargado.
    ");
    assert_snapshot!(world.says("owner", "quitar a ana").await, @r"
    bot: ¿Quién? O escribe: quitar a ana 1
         1 Ana, encargado
         2 Ana, operario
         [1 Ana, encargado]  [2 Ana, operario]
    ");
    assert_snapshot!(world.says("owner", "quitar a ana 2").await, @r"
    bot to newcomer-2: You're no longer in My outfit. Your readings stay with it.
    bot: Quité a Ana. Sus lecturas se quedan.
         Las invitaciones abiertas ya no valen. Para otra: invitar
    ");
}

#[tokio::test]
async fn a_group_that_hides_what_is_said_is_told_how_to_show_it() {
    let mut world = spanish().await;
    world.desk.bot().set_hears_groups(false);
    assert_snapshot!(world.says_in_the_group("owner", "vincular chat").await, @r"
    bot to the group: Este es desde ahora el chat de My outfit. Aquí las lecturas cuentan como en privado: heron 180 12
         Los recordatorios que no llegan a nadie en privado vienen aquí. Para quitarlo: desvincular chat
         Pero aquí aún no veo los mensajes normales: en los grupos Telegram solo me enseña los comandos y las respuestas a mis mensajes.
         Hazme administrador de este grupo. O pide a quien me aloja que quite el modo de privacidad en @BotFather (/setprivacy), me saque del grupo y me vuelva a agregar.
    ");
}

#[tokio::test]
async fn too_much_at_once_is_refused() {
    let rows = "\nheron,2026-03-01,180,12".repeat(20_001);
    let sheet = format!("rig,date,tap,ro{rows}");
    assert!(sheet.len() < MOST_FILE_BYTES);
    for (mut world, spanish) in [(World::new().await, false), (spanish().await, true)] {
        let mut answers = Vec::new();
        for (key, bytes) in [
            ("rows", sheet.clone().into_bytes()),
            ("huge", vec![b'x'; MOST_FILE_BYTES + 1]),
        ] {
            let what = Happening::Document {
                remote: key.into(),
                size_bytes: None,
                bytes: Some(bytes.into_boxed_slice()),
            };
            let file = arrived(key, 0, "desk:owner", "owner", what, world.now);
            world.desk.bot().hear(&[file], world.now).await.unwrap();
            answers.push(world.waits(1).await);
        }
        let answers = answers.join("\n");
        if spanish {
            assert_snapshot!(answers, @r"
            bot to owner: Son más de 20000 filas. Mándalas por partes.
            bot to owner: No pude leer ese archivo. CSV de hasta 1 MB, por favor; o pega las filas debajo de la palabra importar.
            ");
        } else {
            assert_snapshot!(answers, @r"
            bot to owner: That is more than 20000 rows. Send them in parts.
            bot to owner: I couldn't read that file. CSV files up to 1 MB, please; or paste the rows below the word import.
            ");
        }
    }
}

/// Such as one of a release that did not note them yet.
#[tokio::test]
async fn an_outfit_without_noted_changes_says_so() {
    let mut world = World::new().await;
    let mut tx = world.desk.bot().store().begin().await.unwrap();
    sqlx::query("delete from changes").execute(&mut *tx).await.unwrap();
    tx.commit().await.unwrap();
    assert_snapshot!(world.says("owner", "changes").await, @"bot: Nothing has been changed yet.");
    world.says("owner", "idioma español").await;
    assert_snapshot!(world.says("owner", "cambios").await, @"bot: Aún no se ha cambiado nada.");
}

#[tokio::test]
async fn a_fall_that_fits_a_new_membrane_is_asked_about() {
    for (mut world, spanish) in [(World::new().await, false), (spanish().await, true)] {
        for week in 0..30 {
            world.now += 7 * DAY;
            world.says("owner", &format!("heron 200 {}", 24 + week / 2)).await;
        }
        let mut asked = String::new();
        for _ in 0..4 {
            world.now += DAY;
            let answer = world.says("owner", "heron 200 9").await;
            if answer.contains(']') {
                asked = answer;
                break;
            }
        }
        if spanish {
            assert_snapshot!(asked, @r"
            bot: Heron 95,5 % – bien
                 red 200 → ósmosis 9 ppm, estable desde ayer
                 ¿Lleva membrana nueva? Da lecturas de nueva desde ayer; escribe: Heron membrana nueva | Heron misma membrana
                 Enjuaga la membrana antes de recoger.
                 [Membrana nueva]  [Misma membrana]
            ");
            assert_snapshot!(world.says("owner", "[Membrana nueva]").await, @r"
            bot: Heron: membrana nueva. Anotado. Cuento desde cero.
                 .
                 Una membrana nueva puede venir con conservante. Ponte guantes y gafas, sigue la etiqueta y tira la primera agua.
            ");
        } else {
            assert_snapshot!(asked, @r"
            bot: Heron 95.5% – good
                 tap 200 → RO 9 ppm, steady since yesterday
                 Is there a new membrane in it? It reads like one since yesterday; type: Heron new membrane | Heron same membrane
                 Flush before you pack up.
                 [New membrane]  [Same membrane]
            ");
            assert_snapshot!(world.says("owner", "[Same membrane]").await, @"bot: Heron: OK, same membrane. I won't ask again.");
        }
    }
}
