//! Stores and the season's balance as text.

use super::{heading, pad};
use app::view::stores::{BalanceLine, StoresView};

/// Places, use-first order, needs and balance.
pub fn stores(view: &StoresView) -> String {
    let mut out = String::new();
    heading(&mut out, "Stores");
    out.push_str(&format!("{}\n{}\n", view.answer, view.lead));
    for place in &view.places {
        out.push_str(&format!("\n{} ({})\n", place.title, place.total));
        for holding in &place.holdings {
            out.push_str(&format!(
                "  {:>3} {} {} batch #{}, {} {} {}{}\n",
                holding.count,
                pad(&holding.size_words, 12),
                pad(&holding.product, 30),
                holding.batch,
                holding.age,
                holding.eat_by,
                holding.held,
                holding.aside
            ));
        }
    }
    if !view.use_first.is_empty() {
        out.push_str("\nUse first\n");
        for (index, holding) in view.use_first.iter().take(5).enumerate() {
            out.push_str(&format!(
                "  {}. {} ({} {}, {}) {}\n",
                index + 1,
                holding.product,
                holding.count,
                holding.size_words,
                holding.place,
                holding.eat_by
            ));
        }
    }
    if view.freezer.known {
        out.push_str(&format!(
            "\nFreezer: {} of {} litres free. {}\n",
            view.freezer.free, view.freezer.litres, view.freezer.daily
        ));
    }
    out.push_str(&balance(&view.balance));
    out
}

/// The season's mass balance.
pub fn balance(lines: &[BalanceLine]) -> String {
    let mut out = String::from("\nBalance of the season\n");
    // A picking that was undone left nothing behind.
    for line in lines.iter().filter(|line| !line.places.is_empty()) {
        let places: Vec<String> = line
            .places
            .iter()
            .map(|(place, weight)| format!("{place} {}", weight.us))
            .collect();
        out.push_str(&format!(
            "  {} in {} = {}; unaccounted {:.1} %{}{}\n",
            pad(&line.crop, 22),
            line.came_in.us,
            places.join(" + "),
            line.unaccounted_percent,
            if line.zero { "" } else { "  DOES NOT ADD UP" },
            if line.warning.is_empty() {
                String::new()
            } else {
                format!("  ! {}", line.warning)
            }
        ));
    }
    out
}
