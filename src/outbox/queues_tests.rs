use proptest::prelude::*;

use super::*;
use crate::domain::envelope::{Body, Handling};

const NO_LIMITS: Limits = Limits {
    per_second: i64::MAX / 2,
    private_gap: 0,
    group_gap: 0,
    burst: 0,
};

fn open(limits: &Limits) -> Queues {
    let mut queues = Queues::new(limits);
    queues.set_leased_until(i64::MAX);
    queues
}

fn send(id: i64, chat: &str, body: Body, unasked: bool) -> Send {
    let handling = Handling {
        unasked,
        ..Handling::default()
    };
    Send {
        id,
        chat: chat.to_owned(),
        body,
        handling,
        files: Vec::new(),
        tries: 0,
    }
}

fn text(id: i64, chat: &str) -> Send {
    let text = id.to_string();
    send(
        id,
        chat,
        Body::Say {
            text,
            buttons: Vec::new(),
            reply_to: None,
        },
        false,
    )
}

fn unasked(id: i64, chat: &str) -> Send {
    Send {
        handling: Handling {
            unasked: true,
            ..Handling::default()
        },
        ..text(id, chat)
    }
}

fn press(id: i64, chat: &str) -> Send {
    let press = id.to_string();
    send(id, chat, Body::Acknowledge { press, text: None }, false)
}

fn picture(id: i64, chat: &str) -> Send {
    let body = Body::Drawings {
        drawings: Vec::new(),
        caption: String::new(),
        reply_to: None,
    };
    send(id, chat, body, true)
}

fn done() -> Sent {
    Sent::Delivered(None)
}

fn ids(queues: &mut Queues, load: Load, now: i64) -> Vec<i64> {
    std::iter::from_fn(|| queues.take(load, now))
        .map(|send| send.id)
        .collect()
}

/// What happens to the queues in a property: at each step some time passes, and one of these.
#[derive(Clone, Debug)]
enum Step {
    /// Messages for chats, each answered, unasked, or for a press.
    Push(Vec<(u8, u8)>),
    Take,
    /// The nth of those under way ends so.
    Land(u8, u8),
}

fn step() -> impl Strategy<Value = Step> {
    prop_oneof![
        prop::collection::vec((0_u8..4, 0_u8..3), 1..6).prop_map(Step::Push),
        Just(Step::Take),
        (any::<u8>(), 0_u8..6).prop_map(|(which, how)| Step::Land(which, how)),
    ]
}

fn kind(send: &Send) -> (bool, bool) {
    (matches!(send.body, Body::Acknowledge { .. }), send.handling.unasked)
}

fn ending(how: u8) -> Sent {
    match how {
        0 => Sent::NotBefore(1),
        1 => Sent::TooFast {
            wait_s: 1,
            everywhere: false,
        },
        _ => Sent::Delivered(None),
    }
}

proptest! {
    /// One of a chat at a time, in the order of its kind, whatever fails; and in the end each arrived once.
    #[test]
    fn order_holds_in_each_chat_and_nothing_is_lost(steps in prop::collection::vec((0_i64..900, step()), 1..120)) {
        let mut queues = open(&NO_LIMITS);
        let (mut now, mut last_id) = (0, 0);
        let mut under_way: Vec<Send> = Vec::new();
        let mut delivered: Vec<Send> = Vec::new();
        let mut run = |queues: &mut Queues, step: Step, now: i64| {
            match step {
                Step::Push(new) => {
                    let sends = new.into_iter().map(|(chat, kind)| {
                        last_id += 1;
                        let chat = format!("tg:{chat}");
                        [text, unasked, press][usize::from(kind)](last_id, &chat)
                    });
                    queues.push(sends.collect(), now);
                }
                Step::Take => under_way.extend(queues.take(Load::Text, now)),
                Step::Land(which, how) if !under_way.is_empty() => {
                    let send = under_way.swap_remove(usize::from(which) % under_way.len());
                    // What fails ever again while others arrive is set aside, which has a test of its own.
                    let sent = if send.tries < MOST_TRIES { ending(how) } else { done() };
                    if sent == done() {
                        delivered.push(send.clone());
                    }
                    queues.land(send, sent, now);
                }
                Step::Land(..) => {}
            }
            let mut chats: Vec<&str> = under_way.iter().map(|send| send.chat.as_str()).collect();
            chats.sort_unstable();
            chats.dedup();
            assert_eq!(chats.len(), under_way.len(), "one of a chat at a time");
            under_way.len()
        };
        for (later, step) in steps {
            now += later;
            run(&mut queues, step, now);
        }
        while queues.held() > 0 {
            now += 10_000;
            run(&mut queues, Step::Take, now);
            run(&mut queues, Step::Land(0, 9), now);
        }
        let mut seen: Vec<i64> = delivered.iter().map(|send| send.id).collect();
        for (chat, kind_of) in delivered.iter().map(|send| (send.chat.clone(), kind(send))) {
            let of = delivered.iter().filter(|send| send.chat == chat && kind(send) == kind_of);
            let of: Vec<i64> = of.map(|send| send.id).collect();
            prop_assert!(of.is_sorted(), "{chat}: {of:?}");
        }
        seen.sort_unstable();
        prop_assert_eq!(seen, (1..=last_id).collect::<Vec<_>>());
        let finished = queues.take_landed().into_iter().filter(|landed| landed.sent == done()).count();
        prop_assert_eq!(finished, last_id as usize);
    }

    /// A chat's gaps hold, in a group over any minute.
    #[test]
    fn no_minute_of_a_group_sees_more_than_twenty(waits in prop::collection::vec(0_i64..4000, 100..200)) {
        let limits = Limits { per_second: i64::MAX / 2, private_gap: 1, group_gap: 3, burst: 3 };
        let mut queues = open(&limits);
        queues.push((0..1000).map(|id| text(id, "#tg:-1/7")).collect(), 0);
        let (mut now, mut went) = (0, Vec::new());
        for wait in waits {
            now += wait;
            if let Some(send) = queues.take(Load::Text, now) {
                went.push(now);
                queues.land(send, done(), now);
            }
        }
        for start in &went {
            prop_assert!(went.iter().filter(|at| (*start..start + 60_000).contains(at)).count() <= 20);
        }
    }

    /// Whatever pause is asked for, nothing overflows and an hour later it goes on.
    #[test]
    fn any_pause_ends_within_an_hour(wait_s in any::<i64>(), everywhere in any::<bool>(), transient in any::<bool>()) {
        let mut queues = open(&NO_LIMITS);
        queues.push(vec![text(1, "tg:1")], 5);
        let sent = if transient { Sent::NotBefore(wait_s) } else { Sent::TooFast { wait_s, everywhere } };
        let send = queues.take(Load::Text, 5).map(|send| queues.land(send, sent, 5));
        prop_assert!(send.is_some());
        prop_assert!(queues.take(Load::Text, 5 + LONGEST_PAUSE_S * 1000).is_some());
    }
}

#[test]
fn a_failed_message_goes_again_before_the_next_of_its_chat_and_others_go_meanwhile() {
    let mut queues = open(&NO_LIMITS);
    queues.push(vec![text(1, "tg:1"), text(2, "tg:1"), text(3, "tg:2")], 0);
    let first = queues.take(Load::Text, 0);
    assert_eq!(first.as_ref().map(|send| (send.id, send.tries)), Some((1, 1)));
    first
        .into_iter()
        .for_each(|send| queues.land(send, Sent::NotBefore(2), 0));
    assert_eq!(ids(&mut queues, Load::Text, 1999), [3]);
    assert_eq!(queues.next_change(1999), Some(2000));
    let again = queues.take(Load::Text, 2000);
    assert_eq!(again.map(|send| (send.id, send.tries)), Some((1, 2)));
    assert_eq!(queues.take(Load::Text, 99_999), None);
}

#[test]
fn presses_go_before_answers_and_answers_before_what_nobody_asked_for() {
    let mut queues = open(&NO_LIMITS);
    queues.push(
        vec![
            unasked(1, "tg:1"),
            unasked(2, "tg:2"),
            text(3, "tg:2"),
            press(4, "tg:3"),
            text(5, "tg:3"),
        ],
        0,
    );
    let mut went = Vec::new();
    while let Some(send) = queues.take(Load::Text, 0) {
        went.push(send.id);
        queues.land(send, done(), 0);
    }
    assert_eq!(went, [4, 3, 5, 1, 2]);
}

#[test]
fn a_file_takes_no_place_of_a_text_and_keeps_its_place_in_its_chat() {
    let mut queues = open(&NO_LIMITS);
    let sends = vec![
        picture(1, "tg:1"),
        picture(2, "tg:2"),
        unasked(3, "tg:2"),
        text(4, "tg:3"),
    ];
    queues.push(sends, 0);
    assert_eq!(ids(&mut queues, Load::Text, 0), [4]);
    assert_eq!(ids(&mut queues, Load::File, 0), [1, 2]);
}

#[test]
fn a_file_that_somebody_asked_for_goes_before_those_that_nobody_did() {
    let mut queues = open(&NO_LIMITS);
    let mut asked = picture(3, "tg:3");
    asked.handling.unasked = false;
    queues.push(vec![picture(1, "tg:1"), picture(2, "tg:2"), asked], 0);
    assert_eq!(ids(&mut queues, Load::File, 0), [3, 1, 2]);
}

#[test]
fn a_pause_of_a_chat_holds_for_its_answers_and_topics_and_a_pause_of_all_for_everybody() {
    let wait = |everywhere| Sent::TooFast { wait_s: 40, everywhere };
    let mut queues = open(&NO_LIMITS);
    queues.push(vec![text(1, "#tg:-1/7")], 0);
    let send = queues.take(Load::Text, 0);
    send.into_iter().for_each(|send| queues.land(send, wait(false), 0));
    queues.push(vec![text(2, "#tg:-1/8"), text(3, "#tg:-1"), text(4, "tg:1")], 2000);
    let send = queues.take(Load::Text, 2000);
    assert_eq!(send.as_ref().map(|send| send.id), Some(4));
    assert_eq!(queues.take(Load::Text, 39_999), None);
    send.into_iter().for_each(|send| queues.land(send, wait(true), 20_000));
    assert_eq!(queues.take(Load::Text, 59_999), None);
    assert_eq!(ids(&mut queues, Load::Text, 60_000).len(), 2);
}

#[test]
fn a_text_that_always_fails_is_set_aside_once_another_arrives_after_so_many_tries() {
    let mut queues = open(&NO_LIMITS);
    queues.push(vec![text(1, "tg:1"), text(2, "tg:1")], 0);
    let (mut now, mut tries) = (0, 0);
    let mut arrived = Vec::new();
    while queues.held() > 0 && tries < 100 {
        now += 60_000;
        if let Some(send) = queues.take(Load::Text, now) {
            let sent = if send.id == 1 { Sent::NotBefore(60) } else { done() };
            arrived.extend((send.id == 2).then_some(now));
            tries += i64::from(send.id == 1);
            queues.land(send, sent, now);
        }
    }
    assert_eq!((arrived.len(), tries), (1, MOST_TRIES + 1));
    let refused = queues
        .take_landed()
        .into_iter()
        .filter(|landed| matches!(landed.sent, Sent::Refused(_)));
    assert_eq!(refused.map(|landed| landed.id).collect::<Vec<_>>(), [1]);
}

#[test]
fn while_nothing_arrives_no_text_is_given_up() {
    let mut queues = open(&NO_LIMITS);
    queues.push((1..40).map(|id| text(id, &format!("tg:{}", id % 3))).collect(), 0);
    for minute in 1..2000 {
        while let Some(send) = queues.take(Load::Text, minute * 60_000) {
            queues.land(send, Sent::NotBefore(60), minute * 60_000);
        }
    }
    assert_eq!(queues.held(), 39);
    let ordered = (0..3).all(|chat| {
        let line = queues.lines.get(format!("tg:{chat}").as_str());
        line.is_some_and(|line| line.waiting.len() == 13)
    });
    assert!(ordered);
}

#[test]
fn with_a_limit_as_many_go_as_were_reserved_and_only_for_a_moment() {
    let limits = Limits {
        per_second: 28,
        ..NO_LIMITS
    };
    let mut queues = open(&limits);
    queues.push(
        (1..=40)
            .map(|id| text(id, &format!("tg:{id}")))
            .chain([press(41, "tg:41")])
            .collect(),
        0,
    );
    assert_eq!(
        ids(&mut queues, Load::Text, 0),
        [41],
        "the platform does not count the answer to a press"
    );
    assert_eq!(queues.share_wanted(0), 28);
    queues.take_share(20, 1100, 0, 3);
    assert_eq!(ids(&mut queues, Load::Text, 50).len(), 20);
    assert_eq!(queues.share_wanted(50), 20);
    queues.take_share(8, 1100, 50, 55);
    assert_eq!(ids(&mut queues, Load::Text, 151), [0; 0], "too late");
    queues.take_share(0, 1000, 160, 165);
    assert_eq!((queues.share_wanted(1164), queues.share_wanted(1165)), (0, 20));
    assert_eq!(queues.next_change(200), Some(1165));
}

#[test]
fn what_landed_is_handed_out_once_and_comes_back_before_what_landed_since() {
    let mut queues = open(&NO_LIMITS);
    queues.push((1..4).map(|id| text(id, &format!("tg:{id}"))).collect(), 0);
    let land = |queues: &mut Queues, now| {
        let send = queues.take(Load::Text, now);
        send.into_iter().for_each(|send| queues.land(send, done(), now));
    };
    land(&mut queues, 1);
    land(&mut queues, 2);
    assert_eq!(queues.landed_at(), Some(1));
    let taken = queues.take_landed();
    assert_eq!(
        (taken.len(), queues.landed_at(), queues.take_landed().len()),
        (2, None, 0)
    );
    land(&mut queues, 7);
    queues.put_back(taken, 9);
    let ids: Vec<i64> = queues.take_landed().iter().map(|landed| landed.id).collect();
    assert_eq!(ids, [1, 2, 3]);
}

#[test]
fn what_somebody_else_holds_by_now_is_neither_sent_nor_written_down() {
    let mut queues = open(&NO_LIMITS);
    queues.push((1..6).map(|id| text(id, &format!("tg:{}", id % 2))).collect(), 0);
    let flying: Vec<Send> = std::iter::from_fn(|| queues.take(Load::Text, 0)).collect();
    assert_eq!(flying.iter().map(|send| send.id).collect::<Vec<_>>(), [1, 2]);
    queues.set_leased_until(10);
    assert_eq!(queues.take(Load::Text, 10), None);
    queues.keep_only(&HashSet::from([2, 5]), 11);
    queues.set_leased_until(99);
    flying
        .into_iter()
        .for_each(|send| queues.land(send, Sent::NotBefore(0), 12));
    assert_eq!(queues.take_landed().len(), 1);
    assert_eq!((queues.held(), ids(&mut queues, Load::Text, 12)), (2, vec![5, 2]));
}

#[test]
fn a_chat_that_shut_the_bot_out_or_moved_is_dropped_from_memory() {
    for sent in [Sent::Blocked, Sent::Moved("#tg:-9".to_owned())] {
        let mut queues = open(&NO_LIMITS);
        queues.push(vec![text(1, "#tg:-1"), text(2, "#tg:-1/3"), text(3, "tg:1")], 0);
        let send = queues.take(Load::Text, 0);
        send.into_iter().for_each(|send| queues.land(send, sent.clone(), 0));
        assert_eq!((queues.held(), ids(&mut queues, Load::Text, 9)), (1, vec![3]));
    }
}
