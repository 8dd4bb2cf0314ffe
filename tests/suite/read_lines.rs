//! The command `read`, from lines to lines.

use clap::Parser;
use tapside::read_lines::{ReadArgs, run};

#[derive(Parser)]
struct Cli {
    #[command(flatten)]
    args: ReadArgs,
}

fn lines(flags: &[&str], input: &str) -> String {
    let cli = Cli::parse_from(std::iter::once("read").chain(flags.iter().copied()));
    let mut out = Vec::new();
    run(&cli.args, input.as_bytes(), &mut out).expect("lines are read");
    String::from_utf8(out).expect("text")
}

#[test]
fn plain_words() {
    let said = lines(
        &["--fleet", "Lynx,Badger", "--mine", "Lynx"],
        "180 12\nbadger 19 214\nhello\n",
    );
    assert_eq!(
        said,
        "reading     Lynx: tap 180 ppm, RO 12 ppm\n\
         would ask   which way round? Badger: tap 19 ppm, RO 214 ppm [tap 214 RO 19] [as sent]\n\
         chatter     -\n"
    );
}

#[test]
fn json_lines_keep_their_order_and_a_bad_line_is_answered() {
    let input = r#"{"id":1,"text":"lynx 180/12","fleet":["Lynx"],"sender_default_rig":null,"context":[]}
not json
{"id":"b","text":"*14","fleet":["Lynx","Badger"],"context":[{"from":"sender","text":"lynx 180/12"}]}
"#;
    let said = lines(&["--json"], input);
    let answers: Vec<serde_json::Value> = said
        .lines()
        .map(|line| serde_json::from_str(line).expect("JSON"))
        .collect();
    assert_eq!(answers[0]["kind"], "reading");
    assert_eq!(answers[0]["readings"][0]["feed_ppm"], 180.0);
    assert!(
        answers[1]["error"]
            .as_str()
            .is_some_and(|error| error.starts_with("line 2"))
    );
    assert_eq!(answers[2]["id"], "b");
    assert_eq!(answers[2]["kind"], "correction");
    assert_eq!(answers[2]["readings"][0]["permeate_ppm"], 14.0);
}

#[test]
fn bare_degrees_are_those_of_the_outfit() {
    assert!(lines(&["--fleet", "Lynx", "--degrees", "F"], "lynx 180/12 41 degrees\n").contains("5 C"));
    assert!(lines(&["--fleet", "Lynx"], "lynx 180/12 12 degrees\n").contains("12 C"));
}

#[test]
fn an_unknown_own_rig_is_refused() {
    let cli = Cli::parse_from(["read", "--fleet", "Lynx", "--mine", "Ferret"]);
    let error = run(&cli.args, &b""[..], &mut Vec::new()).expect_err("refused");
    assert!(error.to_string().contains("Ferret"));
}
