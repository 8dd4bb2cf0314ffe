//! The settings that held on a day, for what was paid then. Pure.

use crate::store::settings::Kept;

/// What held at an instant, of `all` that was ever set, oldest first. What was not yet
/// told then holds as it was first told: who sets up prices after a year of changes
/// means those as well.
pub(super) fn as_of(all: &[Kept], at: i64) -> Vec<Kept> {
    let key = |kept: &Kept| (kept.rig_id, kept.name.clone());
    let mut standing: Vec<Kept> = Vec::new();
    for kept in all.iter().filter(|kept| kept.set_at <= at) {
        standing.retain(|old| key(old) != key(kept));
        standing.push(kept.clone());
    }
    standing.retain(|kept| !kept.value.is_empty());
    for later in all.iter().filter(|kept| kept.set_at > at && !kept.value.is_empty()) {
        let holds = |old: &Kept| old.name == later.name && (old.rig_id.is_none() || old.rig_id == later.rig_id);
        if !standing.iter().any(holds) {
            standing.push(later.clone());
        }
    }
    standing
}

#[cfg(test)]
mod tests {
    use super::*;

    fn set(rig_id: Option<i64>, name: &str, value: &str, set_at: i64) -> Kept {
        Kept {
            rig_id,
            name: name.to_owned(),
            value: value.to_owned(),
            person_id: None,
            set_at,
        }
    }

    #[test]
    fn each_day_has_the_values_of_that_day() {
        let all = [
            set(None, "price", "9", 10),
            set(None, "size", "25", 10),
            set(None, "price", "12", 20),
            set(Some(1), "size", "30", 20),
            set(None, "price", "", 30),
            set(Some(1), "labour", "5", 30),
        ];
        let held = |name: &str, at: i64| {
            let of_name = |kept: &Kept| (kept.name == name).then(|| (kept.rig_id, kept.value.clone()));
            as_of(&all, at).iter().filter_map(of_name).collect::<Vec<_>>()
        };
        let of_all = |value: &str| vec![(None, value.to_owned())];
        assert_eq!(held("price", 15), of_all("9"));
        assert_eq!(held("price", 25), of_all("12"));
        assert!(held("price", 35).is_empty(), "taken back");
        assert_eq!(held("price", 5), of_all("9"), "not yet told: as first told");
        // The rig's own size came later; the outfit's held until then.
        assert_eq!(held("size", 15), of_all("25"));
        assert_eq!(held("size", 25).len(), 2);
        assert_eq!(held("labour", 5), [(Some(1), "5".to_owned())]);
    }
}
