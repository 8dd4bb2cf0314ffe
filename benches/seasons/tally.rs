//! Sums of what was said against the truth, and the rows that they make.

#[derive(Default)]
pub struct Mean {
    sum: f64,
    count: f64,
}

impl Mean {
    pub fn note(&mut self, value: f64) {
        self.sum += value;
        self.count += 1.0;
    }

    pub fn mean(&self) -> f64 {
        self.sum / self.count
    }

    fn add(&mut self, other: &Self) {
        self.sum += other.sum;
        self.count += other.count;
    }
}

#[derive(Default)]
pub struct Tally {
    /// Squared error of the rejection, all weeks.
    pub square: Mean,
    /// The same without weeks of a leak (and a month after) or of an unlogged change.
    pub quiet_square: Mean,
    pub covered: Mean,
    pub forecast_days: Vec<f64>,
    pub empty_days: Vec<f64>,
    /// Error of the resin's date over the days left, where half of a bed was used.
    pub half_error: Vec<f64>,
    pub half_held: Mean,
    /// Due line, six months before it is crossed: error in days (none told counts as a
    /// year), and whether the range holds the day.
    pub six_months: Vec<f64>,
    pub six_months_held: Mean,
    /// Whether the range of beds used held, of the quarters ahead and of the year ahead.
    pub ahead_held: [Mean; 2],
    /// Error of the beds used in the year ahead, a share of them.
    pub ahead_error: Vec<f64>,
    pub leaks: Mean,
    pub small_leaks: Mean,
    pub all_leaks: Mean,
    pub blunders: Mean,
    pub good: Mean,
    pub unlogged: f64,
    pub unlogged_found: f64,
    pub false_alarms: f64,
    pub false_new: f64,
    pub years: f64,
    /// This rule, below 80 %, below 85 %, every two years; this rule against a
    /// clairvoyant who ends each life no later than the invented owner did.
    pub losses: [Mean; 5],
    /// This rule on first membranes and on later ones.
    pub first_later: [Mean; 2],
    /// This rule on all lives of a rig together.
    pub long_run: Mean,
}

pub struct Row {
    pub what: &'static str,
    pub value: String,
    pub target: &'static str,
}

impl Tally {
    pub fn add(&mut self, o: &Self) {
        self.square.add(&o.square);
        self.quiet_square.add(&o.quiet_square);
        self.covered.add(&o.covered);
        self.forecast_days.extend(&o.forecast_days);
        self.empty_days.extend(&o.empty_days);
        self.half_error.extend(&o.half_error);
        self.half_held.add(&o.half_held);
        self.six_months.extend(&o.six_months);
        self.six_months_held.add(&o.six_months_held);
        for (mine, other) in self.ahead_held.iter_mut().zip(&o.ahead_held) {
            mine.add(other);
        }
        self.ahead_error.extend(&o.ahead_error);
        self.all_leaks.add(&o.all_leaks);
        self.leaks.add(&o.leaks);
        self.small_leaks.add(&o.small_leaks);
        self.blunders.add(&o.blunders);
        self.good.add(&o.good);
        self.unlogged += o.unlogged;
        self.unlogged_found += o.unlogged_found;
        self.false_alarms += o.false_alarms;
        self.false_new += o.false_new;
        self.years += o.years;
        for (mine, other) in self.losses.iter_mut().zip(&o.losses) {
            mine.add(other);
        }
        self.long_run.add(&o.long_run);
        for (mine, other) in self.first_later.iter_mut().zip(&o.first_later) {
            mine.add(other);
        }
    }

    /// One rig's own figures, for comparisons in pairs: loss, squared error of the level,
    /// its count, median error of the resin's date, false alarms, share of leaks found, their count.
    pub fn line(&self) -> String {
        format!(
            "{},{},{},{},{},{},{},{}",
            self.losses[0].mean(),
            self.square.mean(),
            self.covered.mean(),
            median(&self.half_error),
            self.false_alarms,
            self.all_leaks.mean(),
            self.all_leaks.count,
            self.half_held.mean()
        )
    }

    pub fn rows(&self) -> Vec<Row> {
        let row = |what, value, target| Row { what, value, target };
        let loss = |i: usize| format!("{:.2}", 100.0 * self.losses[i].mean());
        let part = |i: usize| format!("{:.2}", 100.0 * self.first_later[i].mean());
        vec![
            row(
                "rejection, RMSE, points",
                format!("{:.2}", 100.0 * self.square.mean().sqrt()),
                "",
            ),
            row(
                "  outside leaks and unlogged changes",
                format!("{:.2}", 100.0 * self.quiet_square.mean().sqrt()),
                "under 1",
            ),
            row(
                "80 % interval holds the truth",
                format!("{:.3}", self.covered.mean()),
                "0.78-0.85",
            ),
            row(
                "80 % line forecast, median error, days",
                format!("{:.0}", median(&self.forecast_days)),
                "",
            ),
            row(
                "due line six months ahead, median error, days",
                format!("{:.0}", median(&self.six_months)),
                "",
            ),
            row(
                "  its range holds the day",
                format!("{:.3}", self.six_months_held.mean()),
                "0.80",
            ),
            row(
                "resin date at half a bed, median error, share of days left",
                format!("{:.3}", median(&self.half_error)),
                "",
            ),
            row(
                "  its range holds the day",
                format!("{:.3}", self.half_held.mean()),
                "0.80",
            ),
            row(
                "resin empty forecast, median error, days",
                format!("{:.0}", median(&self.empty_days)),
                "",
            ),
            row(
                "beds used in the year ahead, median error, share of them",
                format!("{:.3}", median(&self.ahead_error)),
                "",
            ),
            row(
                "  its range holds them",
                format!("{:.3}", self.ahead_held[1].mean()),
                "0.80",
            ),
            row(
                "  the ranges of its quarters do",
                format!("{:.3}", self.ahead_held[0].mean()),
                "0.80",
            ),
            row(
                "leaks of x1.3 and more found (4 readings or more in them)",
                format!("{:.2}", self.all_leaks.mean()),
                "",
            ),
            row("  of x1.5 and more", format!("{:.2}", self.leaks.mean()), ""),
            row("  under x1.5", format!("{:.2}", self.small_leaks.mean()), ""),
            row(
                "false alarms a rig-year",
                format!("{:.3}", self.false_alarms / self.years),
                "",
            ),
            row("blunders set aside", format!("{:.2}", self.blunders.mean()), ""),
            row("good readings set aside", format!("{:.3}", self.good.mean()), ""),
            row(
                "unlogged new membranes asked about",
                format!("{:.2}", self.unlogged_found / self.unlogged),
                "",
            ),
            row(
                "  asked wrongly, a rig-year",
                format!("{:.3}", self.false_new / self.years),
                "",
            ),
            row("loss against a clairvoyant owner, %: this rule", loss(0), "under 3"),
            row("  and against one who never outlasts the life seen", loss(4), ""),
            row(
                "  this rule over all lives of a rig together",
                format!("{:.2}", 100.0 * self.long_run.mean()),
                "",
            ),
            row("  this rule on the first membrane", part(0), ""),
            row("  this rule on later ones", part(1), ""),
            row("  new membrane below 80 %", loss(1), ""),
            row("  new membrane below 85 %", loss(2), ""),
            row("  new membrane every two years", loss(3), ""),
        ]
    }
}

fn median(values: &[f64]) -> f64 {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    sorted.get(sorted.len() / 2).copied().unwrap_or(f64::NAN)
}
