//! How long one message takes to be read.
#![allow(missing_docs)]

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use tapside::grammar::{Rig, Scene, read};

fn messages(criterion: &mut Criterion) {
    let names = [
        "Lynx",
        "Badger",
        "Van 3",
        "Trailer B",
        "Trailer C",
        "Grey Seal",
        "Stoat",
        "Unit 12",
        "Wren",
        "Cart 2",
    ];
    let fleet = names
        .iter()
        .zip(1..)
        .map(|(name, id)| Rig {
            id,
            name: (*name).to_string(),
            ..Rig::default()
        })
        .collect();
    let scene = Scene {
        fleet,
        ..Scene::default()
    };
    let texts = [
        ("typical", "lynx 180 12"),
        ("labelled", "badger tap 214 ro 19 glass 0, 11C 4 bar"),
        ("several_rigs", "lynx 180/12, badger 214/19 flushed, van 3 190/14"),
        ("slips", "bagder fedd 214 pemr 19"),
        ("number_words", "grey seal one eighty in and twelve out"),
        (
            "chatter",
            "running about twenty minutes late lads, traffic is bad on the bridge again",
        ),
    ];
    let mut group = criterion.benchmark_group("message");
    for (name, text) in texts {
        group.bench_function(name, |bencher| {
            bencher.iter(|| read(black_box(text), black_box(&scene)))
        });
    }
    group.finish();
}

criterion_group!(benches, messages);
criterion_main!(benches);
