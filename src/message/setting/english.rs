//! How settings are typed in English. A row a way: what is typed, what it makes.

use super::Field;
use super::hours::Weekday;
use super::typed::{Make, make};

/// What is typed, and what it makes of the values in it.
pub const ROWS: &[(&str, Make)] = &[
    ("currency [is] <name>", make::currency),
    ("country [is] <name>", make::country),
    (
        "[put|set|change|changed|make|move|raise|lower|update] [the|our|my] resin price [has] [changed|is|of|now|went] [now] [up|down] [to] <money>",
        make::resin_price,
    ),
    (
        "[put|set|change|changed|make|move|raise|lower|update] [the|our|my] resin price [has] [changed|is|of|now|went] [now] [up|down] [to] <money> [a|per|the] [/] <unit>",
        make::resin_price_per,
    ),
    ("price [of] [the] resin [is] <money>", make::resin_price),
    ("price [of] [the|a] membrane [is] <money>", make::membrane_price),
    (
        "[put|set|change|changed|make|move|raise|lower|update] [the|our|my] price of|for [the|our] [new] resin [has] [changed|is|of|now|went] [now] [up|down] [to] <money>",
        make::resin_price,
    ),
    (
        "[put|set|change|changed|make|move|raise|lower|update] [the|our|my] price of|for [the|our] [new] resin [has] [changed|is|of|now|went] [now] [up|down] [to] <money> [a|per|the] [/] <unit>",
        make::resin_price_per,
    ),
    (
        "[the|our|new] resin [now] cost|costs [is|of|us] [now] <money>",
        make::resin_price,
    ),
    (
        "[the|our|new] resin [now] cost|costs [is|of|us] [now] <money> [a|per|the] [/] <unit>",
        make::resin_price_per,
    ),
    ("resin <volume> cost|costs|for|at <money>", make::resin_bag),
    ("[a] bag of <volume> cost|costs <money>", make::resin_bag),
    ("<volume> of resin cost|costs <money>", make::resin_bag),
    (
        "[put|set|change|changed|make|move|raise|lower|update] [the|our|my] membrane|membranes price [has] [changed|is|of|now|went] [now] [up|down] [to] <money> [each]",
        make::membrane_price,
    ),
    (
        "[put|set|change|changed|make|move|raise|lower|update] [the|our|my] price of|for [a|the|our] [new] membrane|membranes [has] [changed|is|of|now|went] [now] [up|down] [to] <money> [each]",
        make::membrane_price,
    ),
    (
        "[a|our|the] [new] membrane|membranes [now] cost|costs [is|of|us] [now] <money> [each]",
        make::membrane_price,
    ),
    ("a new membrane is <money>", make::membrane_price),
    ("new membrane|membranes [is|are] <money> each", make::membrane_price),
    (
        "[put|set|change|changed|make|move|raise|lower|update] [the|our|my] prefilter|prefilters|filter|filters price [has] [changed|is|of|now|went] [now] [up|down] [to] <money>",
        make::prefilter_price,
    ),
    (
        "[put|set|change|changed|make|move|raise|lower|update] [the|our|my] price of|for [the|our|new] prefilter|prefilters|filters [has] [changed|is|of|now|went] [now] [up|down] [to] <money>",
        make::prefilter_price,
    ),
    (
        "[our|the|new] prefilter|prefilters|filters [now] cost|costs [is|of|us] [now] <money>",
        make::prefilter_price,
    ),
    (
        "[membrane] labour|labor [cost|costs] [is|of] <money>",
        make::membrane_labour,
    ),
    (
        "[membrane] labour|labor <money> [a|per] [membrane] [change]",
        make::membrane_labour,
    ),
    ("resin labour|labor [cost|costs] [is|of] <money>", make::resin_labour),
    (
        "resin labour|labor <money> [a|per] [resin] [change]",
        make::resin_labour,
    ),
    ("[has|holds] resin <volume>", make::resin_litres),
    ("[has|holds] <volume> [of] resin", make::resin_litres),
    ("litres|liters [a|per|/] day [is] <number>", make::litres),
    ("gallons [a|per|/] day [is] <number>", make::gallons),
    ("[uses|makes] <volume> [a|per|/] day", make::litres),
    ("busy <months> <percent>", make::busy),
    ("wearing line [is|at] <percent>", make::wearing_line),
    ("due line [is|at] <percent>", make::due_line),
    ("spent line [is|at] <percent>", make::spent_line),
    ("working|work days [are] <days>", make::working_days),
    ("day ends [at] <clock>", make::day_ends),
    ("<weekday> ends [at] <clock>", make::day_ends_on),
    ("day ends [at] <clock> on <weekday>", make::day_ends_on),
    ("digest [on] <weekday> [at] <clock>", make::digest_at),
    (
        "quiet hours [from] <clock> [-|to|till|until] <clock>",
        make::quiet_hours,
    ),
    ("meter [shows] us [/] [cm] <number>", make::meter_factor),
    ("pressure in <name>", make::pressure),
    ("pressure <name>", make::pressure),
    ("volume|volumes [in] <name>", make::volume),
    ("degrees [in] <name>", make::degrees),
    (
        "prefilter|prefilters|filters [change|changed] every <every>",
        make::prefilter_days,
    ),
    ("[has] <number> membrane|membranes", make::membranes),
    ("membranes <number>", make::membranes),
    ("rated [at|for] <flow> [at] <warmth> [and|,|at] <pressure>", make::rated),
    (
        "rated [at|for] <flow> [at] <pressure> [and|,|at] <warmth>",
        make::rated_turned,
    ),
    ("[is] also called <name>", make::short_names_or),
    ("keep [for] <number> year|years", make::keep),
];

/// What is typed without a value, and the kept value that it stands for.
pub const WHOLE: &[(&str, Field, &str)] = &[
    ("digest off", Field::Digest, "off"),
    ("no digest", Field::Digest, "off"),
    ("digest on", Field::Digest, "on"),
    ("nudges|nudge off", Field::Nudges, "off"),
    ("nudges|nudge on", Field::Nudges, "on"),
    ("warnings|warning off", Field::Notices, "off"),
    ("warnings|warning on", Field::Notices, "on"),
    ("quiet hours off", Field::QuietHours, "off"),
    ("no quiet hours", Field::QuietHours, "off"),
    ("meter [shows] ppm", Field::Meter, "ppm"),
    ("meter [shows] us [/] [cm]", Field::Meter, "0.5"),
    ("[is|has] ro and|plus di|resin", Field::ResinBed, "yes"),
    ("[is|has] ro only", Field::ResinBed, "no"),
    ("[is|stands|runs] upright", Field::Stands, "upright"),
    ("[is|lies|runs] lying [down]", Field::Stands, "lying"),
    ("[is|lies|runs] on its side", Field::Stands, "lying"),
    ("keep everything|all", Field::Keep, "everything"),
    (
        "working|work days [are] every day",
        Field::WorkingDays,
        "mon,tue,wed,thu,fri,sat,sun",
    ),
];

/// What each setting is called.
pub const NAMES: &[(&str, Field)] = &[
    ("resin price", Field::ResinPrice),
    ("membrane price", Field::MembranePrice),
    ("prefilter price", Field::PrefilterPrice),
    ("labour|labor", Field::MembraneLabour),
    ("membrane labour|labor", Field::MembraneLabour),
    ("resin labour|labor", Field::ResinLabour),
    ("resin", Field::ResinLitres),
    ("resin litres|liters", Field::ResinLitres),
    ("litres|liters|gallons [a|per] day", Field::LitresPerDay),
    ("busy", Field::BusyMonths),
    ("busy months", Field::BusyMonths),
    ("wearing line", Field::WearingLine),
    ("due line", Field::DueLine),
    ("spent line", Field::SpentLine),
    ("working|work days", Field::WorkingDays),
    ("day ends", Field::DayEnds),
    ("monday ends", Field::DayEndsOn(Weekday::Monday)),
    ("tuesday ends", Field::DayEndsOn(Weekday::Tuesday)),
    ("wednesday ends", Field::DayEndsOn(Weekday::Wednesday)),
    ("thursday ends", Field::DayEndsOn(Weekday::Thursday)),
    ("friday ends", Field::DayEndsOn(Weekday::Friday)),
    ("saturday ends", Field::DayEndsOn(Weekday::Saturday)),
    ("sunday ends", Field::DayEndsOn(Weekday::Sunday)),
    ("digest", Field::DigestAt),
    ("nudges", Field::Nudges),
    ("warnings", Field::Notices),
    ("quiet hours", Field::QuietHours),
    ("meter", Field::Meter),
    ("degrees", Field::Degrees),
    ("pressure", Field::PressureUnit),
    ("volume", Field::VolumeUnit),
    ("country", Field::Country),
    ("currency", Field::Currency),
    ("prefilter|prefilters", Field::PrefilterDays),
    ("membranes", Field::Membranes),
    ("upright|lying", Field::Stands),
    ("rated", Field::Rated),
    ("also called", Field::ShortNames),
];

/// The word that puts a setting's default back.
pub const DEFAULT: &str = "default|standard";

/// The word that lists what holds.
pub const ALL: &str = "settings|setting";

/// Questions of what is set.
pub const ASKS: &[&str] = &[
    "[show] [what|whats|what's] [are|is] [the|our|my] prices",
    "show|what|whats|what's [are|is] [the|our|my] resin|membrane|prefilter|filter|filters price|prices",
];
