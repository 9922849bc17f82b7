//! The freezer as a box filled to its share.

use super::n;
use maud::{Markup, html};

/// A layer from the bottom up.
#[derive(Debug, Clone)]
pub struct Layer {
    /// Share of the whole room, 0 to 1.
    pub share: f64,
    /// Hatching of the layer.
    pub look: LayerLook,
}

/// How a layer is drawn: the older, the fuller.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LayerLook {
    /// Put in lately.
    Young,
    /// Some months old.
    Older,
    /// Over a year old: full ink.
    Oldest,
}

/// The box. `says` gives the numbers; `room` is written into the free part, or below when it is full.
pub fn draw(layers: &[Layer], room: &str, says: &str) -> Markup {
    let (top, tall) = (62.0, 200.0);
    let mut level = top + tall;
    let mut drawn = Vec::new();
    for layer in layers {
        let from = (level - tall * layer.share.clamp(0.0, 1.0)).max(top);
        if from < level {
            drawn.push((from, level - from, layer.look));
        }
        level = from;
    }
    let free = level - top;
    html! {
        div {
        svg.chest viewBox="0 0 340 270" role="img" aria-label=(says) {
            path.pen.heavy.on-slip d="M14 62L40 14H334L314 62" {}
            path.pen.heavy d="M150 38H210" {}
            rect.on-slip x="14" y="62" width="300" height="200" {}
            g.at-freezer {
                @for (from, height, look) in drawn {
                    rect.out.post[look == LayerLook::Oldest] x="14" y=(n(from)) width="300" height=(n(height)) fill=(look.hatching()) {}
                }
            }
            rect.pen.heavy x="14" y="62" width="300" height="200" {}
            @if free > 30.0 { text.t.mid x="164" y=(n(top + free / 2.0 + 5.0)) { (room) } }
        }
        @if free <= 30.0 { p.note { (room) } }
        }
    }
}

impl LayerLook {
    fn hatching(self) -> &'static str {
        match self {
            LayerLook::Young => "url(#h-cold-young)",
            LayerLook::Older => "url(#h-freezer)",
            LayerLook::Oldest => "currentColor",
        }
    }
}
