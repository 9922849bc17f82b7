//! A canner cut open: jars on the rack, and the one thing a cook must see, water over the lids or
//! the weight on its vent.

use maud::{Markup, html};

/// Which vessel is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Vessel {
    /// Boiling-water canner: water over the lids.
    BoilingWater,
    /// Steam canner: a little water below the rack, jars in steam.
    Steam,
    /// Pressure canner with a weight on its vent.
    Weighted,
    /// Pressure canner with a dial.
    Dial,
}

impl Vessel {
    /// The vessel of a method's kebab text.
    pub fn of(method: &str) -> Option<Vessel> {
        match method {
            "boiling-water" => Some(Vessel::BoilingWater),
            "steam" => Some(Vessel::Steam),
            "weighted-gauge" => Some(Vessel::Weighted),
            "dial-gauge" => Some(Vessel::Dial),
            _ => None,
        }
    }
}

/// The drawing; it only repeats what the plate says in words. `water` is how much of it stands over
/// the lids, such as "2 in", as the tables have it for this process.
pub fn draw(vessel: Vessel, water: Option<&str>) -> Markup {
    let pressure = matches!(vessel, Vessel::Weighted | Vessel::Dial);
    html! {
        svg.can viewBox="0 0 240 170" aria-hidden="true" {
            path.pen.heavy d="M45 62V146a10 10 0 0 0 10 10H165a10 10 0 0 0 10-10V62" {}
            path.pen d="M45 80H30v12H45M175 80h15v12H175" {}
            @if pressure {
                path.pen.heavy d="M38 62H182M45 62c2-16 20-24 65-24s63 8 65 24" {}
            } @else {
                path.pen.heavy d="M38 62H182M44 62l6-8H170l6 8M102 54v-7h16v7" {}
            }
            @for x in [58, 96, 134] {
                path.pen.on-slip d=(format!("M{} 104h18v6h-18zM{} 110h22c4 4 4 6 4 9v27h-30v-27c0-3 0-5 4-9z", x + 4, x + 2)) {}
            }
            path.pen.thin d="M50 149H170" {}
            @match vessel {
                Vessel::BoilingWater => {
                    path.pen.thin d="M46 84q8-6 16 0t16 0 16 0 16 0 16 0 16 0 16 0 16 0" {}
                    path.mad d="M200 84v20M195 84h10M195 104h10" {}
                    @if let Some(water) = water { text.tn x="210" y="99" { (water) } }
                    path.pen.thin d="M78 40q-5-6 0-12t0-12M110 36q-5-6 0-12t0-12M142 40q-5-6 0-12t0-12" {}
                }
                Vessel::Steam => {
                    path.pen.thin d="M46 152q8-4 16 0t16 0 16 0 16 0 16 0 16 0 16 0 16 0" {}
                    path.pen.thin d="M70 40q-5-6 0-12t0-12M150 40q-5-6 0-12t0-12" {}
                }
                Vessel::Weighted => {
                    path.pen.thin d="M46 134q8-5 16 0t16 0 16 0 16 0 16 0 16 0 16 0 16 0" {}
                    path.pen d="M110 38V30" {}
                    rect.on-ink x="101" y="14" width="18" height="16" rx="2" {}
                    path.pen.thin d="M94 16q-4 6 0 12M126 16q4 6 0 12" {}
                }
                Vessel::Dial => {
                    path.pen.thin d="M46 134q8-5 16 0t16 0 16 0 16 0 16 0 16 0 16 0 16 0" {}
                    path.pen d="M110 38V33" {}
                    circle.pen.on-slip cx="110" cy="18" r="15" {}
                    path.mad d="M110 18l7-8" {}
                }
            }
        }
    }
}
