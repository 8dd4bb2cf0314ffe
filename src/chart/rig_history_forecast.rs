//! What is ahead of a membrane: the fan of the forecast, and the span of days in
//! which the due line is met.

use super::axis::{Days, Heights};
use super::palette::RUST;
use super::rig_history::{FRAME, Level, RigHistory};
use super::sheet::{Anchor, Area, Fill, Point, Sheet, hand};
use super::typeface::{self, Weight};

/// Draws the fan, dashed and hatched, and the span on the due line.
pub fn draw_forecast(sheet: &mut Sheet, facts: &RigHistory, days: &Days, heights: &Heights) {
    let shown: Vec<&Level> = facts.forecast.iter().filter(|at| days.shows(at.day)).collect();
    let edge = |level: fn(&Level) -> f64| -> Vec<Point> {
        shown.iter().map(|at| (days.x(at.day), heights.y(level(at)))).collect()
    };
    let (upper, lower, middle) = (edge(|at| at.high), edge(|at| at.low), edge(|at| at.mid));
    sheet.ribbon(&upper, &lower, Fill::Ahead);
    // The dashes end where the axis does, instead of running along its bottom.
    let until = middle
        .iter()
        .position(|&(_, y)| y >= heights.bottom)
        .map_or(middle.len(), |at| at + 1);
    sheet.line(&middle[..until], RUST, 7.0, "3 16");
    if let Some(due) = facts.due.as_ref().filter(|due| days.shows(due.early)) {
        let y = heights.y(facts.limits.due);
        let late = due.late.filter(|&late| days.shows(late));
        let (left, right) = (days.x(due.early), late.map_or(FRAME.right, |late| days.x(late)));
        sheet.line(&[(left, y), (right, y)], RUST, 14.0, "");
        // An end that is open, or off the sheet, has no bar.
        for x in [Some(left), late.map(|_| right)].into_iter().flatten() {
            sheet.line(&[(x, y - 16.0), (x, y + 16.0)], RUST, 6.0, "");
        }
        if days.shows(due.likely) {
            sheet.diamond((days.x(due.likely), y), 19.0, RUST);
        }
        let style = hand(34.0, Weight::Heavy, RUST);
        let half = typeface::width(&typeface::drawable(&due.words), style.size, style.weight) / 2.0;
        let middle =
            f64::midpoint(left, right).clamp(FRAME.left + half, (FRAME.right - half - 8.0).max(FRAME.left + half));
        sheet.text_over(
            (middle, y + 58.0),
            style,
            Anchor::Middle,
            &due.words,
            FRAME.right - FRAME.left,
        );
    }
    let spots: Vec<Point> = [60, 50, 70, 40, 80, 30, 90]
        .into_iter()
        .filter_map(|percent| upper.get(upper.len() * percent / 100).copied())
        .flat_map(|(x, y)| [(x, y - 24.0), (x + 50.0, y - 30.0), (x, y - 60.0)])
        .collect();
    let right_of_today = Area {
        left: days.x(facts.today) + 10.0,
        ..FRAME
    };
    let style = hand(34.0, Weight::Semi, RUST);
    sheet.text_where_free(&spots, style, &facts.words.forecast, &right_of_today, &upper);
}
