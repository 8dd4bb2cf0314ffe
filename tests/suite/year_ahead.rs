//! The year ahead as a workbook.

use std::io::Cursor;

use calamine::{Data, Reader, Xlsx, open_workbook_from_rs};
use insta::assert_snapshot;

use crate::moving::files;
use crate::world::World;

/// The titles of the workbook's sheet, a line each, and its rows.
async fn table(world: &mut World, text: &str) -> (String, Vec<Vec<Data>>) {
    let files = files(world, "owner", text).await;
    let (_, bytes) = files.iter().find(|(name, _)| name.ends_with(".xlsx")).unwrap();
    let mut book: Xlsx<_> = open_workbook_from_rs(Cursor::new(bytes.clone())).unwrap();
    let name = book.sheet_names().remove(0);
    let range = book.worksheet_range(&name).unwrap();
    let mut rows = range.rows().map(<[Data]>::to_vec);
    let titles: Vec<String> = rows.next().unwrap().iter().map(ToString::to_string).collect();
    (format!("[{name}]\n{}", titles.join("\n")), rows.collect())
}

#[tokio::test]
async fn the_year_is_a_table_of_thirteen_months_in_both_languages() {
    let mut world = World::new().await;
    for text in [
        "currency GBP",
        "resin price 8",
        "membrane price 180",
        "heron resin 10 litres",
        "litres a day 500",
        "heron new resin",
        "heron 200 20",
    ] {
        world.says("owner", text).await;
    }
    let (titles, rows) = table(&mut world, "year ahead file").await;
    assert_snapshot!(titles, @r"
    [Year ahead]
    Month
    Resin
    Membranes
    Prefilters
    Cost GBP
    Hardly less
    Hardly more
    ");
    assert_eq!(rows.len(), 13, "the first month and the last are parts");
    // By hand: (200 x 0.10 + 4) mg/L in some 409 L a working day fill 10 L of resin in about 20 of them.
    let with_resin = rows.iter().filter(|row| row[1].to_string().contains("Heron")).count();
    assert!(with_resin >= 9, "{rows:?}");
    let likely: f64 = rows
        .iter()
        .filter_map(|row| row[4].to_string().parse::<f64>().ok())
        .sum();
    let low: f64 = rows
        .iter()
        .filter_map(|row| row[5].to_string().parse::<f64>().ok())
        .sum();
    assert!(0.0 < low && low < likely, "{low} {likely}");
    world.says("owner", "language español").await;
    let (titles, _) = table(&mut world, "archivo del año").await;
    assert_snapshot!(titles, @r"
    [Año que viene]
    Mes
    Resina
    Membranas
    Prefiltros
    Coste GBP
    Difícilmente menos
    Difícilmente más
    ");
}
