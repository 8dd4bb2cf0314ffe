//! How settings are typed in Spanish. A row a way: what is typed, what it makes.

use super::Field;
use super::hours::Weekday;
use super::typed::{Make, make};

/// What is typed, and what it makes of the values in it.
pub const ROWS: &[(&str, Make)] = &[
    ("moneda [es] <name>", make::currency),
    ("pais [es] <name>", make::country),
    (
        "[pon|sube|baja|cambia|cambie|actualiza|subio|bajo] [el|nuestro] precio [de] [la] resina [ha] [es|ahora|cambia|cambio|sube|subio|bajo|baja|cambiado|subido|bajado] [es] [a] <money>",
        make::resin_price,
    ),
    (
        "[pon|sube|baja|cambia|cambie|actualiza|subio|bajo] [el|nuestro] precio [de] [la] resina [ha] [es|ahora|cambia|cambio|sube|subio|bajo|baja|cambiado|subido|bajado] [es] [a] <money> [el|por|al|/] <unit>",
        make::resin_price_per,
    ),
    ("resina precio <money>", make::resin_price),
    ("membrana precio <money>", make::membrane_price),
    (
        "[la|nuestra] resina [ahora] [nos] cuesta|vale|a [ahora] <money>",
        make::resin_price,
    ),
    (
        "[la|nuestra] resina [ahora] [nos] cuesta|vale|a [ahora] <money> [el|por|al|/] <unit>",
        make::resin_price_per,
    ),
    ("<volume> de resina cuestan|cuesta|valen <money>", make::resin_bag),
    ("[un] saco de <volume> cuesta|vale <money>", make::resin_bag),
    (
        "[pon|sube|baja|cambia|cambie|actualiza|subio|bajo] [el|nuestro] precio [de] [la|una] membrana [nueva] [ha] [es|ahora|cambia|cambio|sube|subio|bajo|baja|cambiado|subido|bajado] [es] [a] <money>",
        make::membrane_price,
    ),
    (
        "[la|una|nuestra] membrana [nueva] [ahora] [nos] cuesta|vale [ahora] <money>",
        make::membrane_price,
    ),
    ("una membrana nueva son|es|sale <money>", make::membrane_price),
    (
        "[pon|sube|baja|cambia|cambie|actualiza|subio|bajo] [el|nuestro] precio [de] [los] prefiltros|prefiltro|filtros [ha] [es|ahora|cambia|cambio|sube|subio|bajo|baja|cambiado|subido|bajado] [es] [a] <money>",
        make::prefilter_price,
    ),
    (
        "[los|nuestros] prefiltros|filtros [ahora] [nos] cuestan|valen <money>",
        make::prefilter_price,
    ),
    ("mano de obra [de] [la] [membrana] <money>", make::membrane_labour),
    ("mano de obra [de] [la] resina <money>", make::resin_labour),
    ("[tiene|lleva] resina [de] <volume>", make::resin_litres),
    ("[tiene|lleva] <volume> de resina", make::resin_litres),
    ("litros [al|por|/] dia <number>", make::litres),
    ("galones [al|por|/] dia <number>", make::gallons),
    ("[usa|hace] <volume> [al|por|/] dia", make::litres),
    ("temporada alta <months> <percent>", make::busy),
    ("linea de desgaste <percent>", make::wearing_line),
    ("linea de aviso <percent>", make::due_line),
    ("linea de cambio <percent>", make::spent_line),
    ("dias de trabajo [de] <days>", make::working_days),
    ("dias laborables [de] <days>", make::working_days),
    ("[el] dia acaba|termina [a] [las] <clock>", make::day_ends),
    ("[el] <weekday> acaba|termina [a] [las] <clock>", make::day_ends_on),
    ("resumen [el] <weekday> [a] [las] <clock>", make::digest_at),
    ("silencio [de] <clock> [-|a|hasta] <clock>", make::quiet_hours),
    ("medidor [en] us [/] [cm] <number>", make::meter_factor),
    ("presion [en] <name>", make::pressure),
    ("volumen [en] <name>", make::volume),
    ("grados [en] <name>", make::degrees),
    ("prefiltros [se] [cambian] cada <every>", make::prefilter_days),
    ("[tiene] <number> membrana|membranas", make::membranes),
    ("membranas <number>", make::membranes),
    ("[da] nominal [de] <flow> [a] <warmth> [y|,|a] <pressure>", make::rated),
    ("tambien [se] [llama|llamado|llamada] <name>", make::short_names_o),
    ("conservar|guardar <number> ano|anos", make::keep),
];

/// What is typed without a value, and the kept value that it stands for.
pub const WHOLE: &[(&str, Field, &str)] = &[
    ("resumen no|desactivado", Field::Digest, "off"),
    ("sin resumen", Field::Digest, "off"),
    ("resumen si|activado", Field::Digest, "on"),
    ("recordatorios no|desactivados", Field::Nudges, "off"),
    ("sin recordatorios", Field::Nudges, "off"),
    ("recordatorios si|activados", Field::Nudges, "on"),
    ("avisos no|desactivados", Field::Notices, "off"),
    ("sin avisos", Field::Notices, "off"),
    ("avisos si|activados", Field::Notices, "on"),
    ("sin silencio", Field::QuietHours, "off"),
    ("silencio no", Field::QuietHours, "off"),
    ("medidor [en] ppm", Field::Meter, "ppm"),
    ("medidor [en] us [/] [cm]", Field::Meter, "0.5"),
    ("[es|tiene] osmosis|ro y resina|di", Field::ResinBed, "yes"),
    ("[es|tiene] solo osmosis|ro", Field::ResinBed, "no"),
    ("[esta|va] de pie", Field::Stands, "upright"),
    ("[esta|va] vertical", Field::Stands, "upright"),
    ("[esta|va] tumbado|tumbada|acostado|acostada", Field::Stands, "lying"),
    ("conservar|guardar todo", Field::Keep, "everything"),
    (
        "dias de trabajo todos [los] [dias]",
        Field::WorkingDays,
        "mon,tue,wed,thu,fri,sat,sun",
    ),
];

/// What each setting is called.
pub const NAMES: &[(&str, Field)] = &[
    ("precio [de] [la] resina", Field::ResinPrice),
    ("precio [de] [la] membrana", Field::MembranePrice),
    ("precio [de] [los] prefiltros", Field::PrefilterPrice),
    ("mano de obra [de] [la] [membrana]", Field::MembraneLabour),
    ("mano de obra [de] [la] resina", Field::ResinLabour),
    ("resina", Field::ResinLitres),
    ("litros|galones [al|por] dia", Field::LitresPerDay),
    ("temporada alta", Field::BusyMonths),
    ("linea de desgaste", Field::WearingLine),
    ("linea de aviso", Field::DueLine),
    ("linea de cambio", Field::SpentLine),
    ("dias de trabajo", Field::WorkingDays),
    ("[el] dia acaba|termina", Field::DayEnds),
    ("[el] lunes acaba|termina", Field::DayEndsOn(Weekday::Monday)),
    ("[el] martes acaba|termina", Field::DayEndsOn(Weekday::Tuesday)),
    ("[el] miercoles acaba|termina", Field::DayEndsOn(Weekday::Wednesday)),
    ("[el] jueves acaba|termina", Field::DayEndsOn(Weekday::Thursday)),
    ("[el] viernes acaba|termina", Field::DayEndsOn(Weekday::Friday)),
    ("[el] sabado acaba|termina", Field::DayEndsOn(Weekday::Saturday)),
    ("[el] domingo acaba|termina", Field::DayEndsOn(Weekday::Sunday)),
    ("resumen", Field::DigestAt),
    ("recordatorios", Field::Nudges),
    ("avisos", Field::Notices),
    ("silencio", Field::QuietHours),
    ("medidor", Field::Meter),
    ("grados", Field::Degrees),
    ("presion", Field::PressureUnit),
    ("volumen", Field::VolumeUnit),
    ("pais", Field::Country),
    ("moneda", Field::Currency),
    ("prefiltros", Field::PrefilterDays),
    ("membranas", Field::Membranes),
    ("nominal", Field::Rated),
    ("tambien", Field::ShortNames),
];

/// The words that put a setting's default back.
pub const DEFAULT: &str = "normal|estandar";

/// The word that lists what holds.
pub const ALL: &str = "ajustes|ajuste";

/// Questions of what is set.
pub const ASKS: &[&str] = &[
    "[cuales|que] [son] [los] precios",
    "cual|que [es] [el] precio [de] [la|del|los] resina|membrana|prefiltro|prefiltros|filtros",
];
