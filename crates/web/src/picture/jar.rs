//! A jar, with the headspace as a measured gap and everything else named by a leader line.

use super::n;
use maud::{Markup, html};

/// What the jar holds, by look.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Filling {
    /// Juice, sauce, jam, stock: one even body.
    Smooth,
    /// Pieces under a liquid.
    Pieces,
}

/// Input of the drawing.
#[derive(Debug, Clone)]
pub struct Jar<'a> {
    /// Jar in words: "one quart, 946 ml".
    pub size: &'a str,
    /// Volume against a quart: 1 for a quart, 0.5 for a pint. Draws the height.
    pub quarts: f64,
    /// Headspace in hundredths of an inch.
    pub headspace_hundredths: i64,
    /// Headspace in words, first unit: "1/2 in".
    pub headspace: &'a str,
    /// Headspace in words, second unit: "13 mm".
    pub headspace_metric: &'a str,
    /// Look of what is in it.
    pub filling: Filling,
    /// What is in it, from the top down, at most four.
    pub holds: Vec<&'a str>,
}

/// Draws it. The gap is shown at least 16 px tall, so that it can be seen; the figure tells.
pub fn draw(jar: &Jar<'_>) -> Markup {
    let body = 150.0 + 90.0 * jar.quarts.clamp(0.2, 1.2);
    let top = 66.0;
    let bottom = top + body;
    // A quart is about 6 1/2 inches from rim to foot, a pint about 4 3/4: close enough for a pen drawing.
    let inches = 3.0 + 3.5 * jar.quarts.clamp(0.2, 1.2);
    let gap = (jar.headspace_hundredths as f64 / 100.0 / inches * body).clamp(16.0, body / 2.0);
    let fill = top - 14.0 + gap;
    let says = format!(
        "{}. Fill to {} ({}) below the rim.{}",
        jar.size,
        jar.headspace,
        jar.headspace_metric,
        list(&jar.holds)
    );
    let outline = format!(
        "M38 {t}c0 16-14 16-14 34V{b}a14 14 0 0 0 14 14H128a14 14 0 0 0 14-14V{s}c0-18-14-18-14-34z",
        t = n(top - 14.0),
        b = n(bottom - 14.0),
        s = n(top + 20.0)
    );
    let rows = jar.holds.len().min(4);
    let inside = format!("jar-inside-{}", (jar.quarts * 100.0).round());
    html! {
        svg.jarpic viewBox=(format!("0 0 336 {}", n(bottom + 34.0))) role="img" aria-label=(says) {
            clipPath id=(inside) { path d=(outline) {} }
            g clip-path=(format!("url(#{inside})")) {
                rect.on-slip x="20" y="0" width="130" height=(n(bottom + 10.0)) {}
                rect.on-wash x="20" y=(n(fill)) width="130" height=(n(bottom - fill)) {}
                @if jar.filling == Filling::Pieces {
                    @for (index, x) in [36.0, 62.0, 88.0, 114.0].into_iter().enumerate() {
                        @let rise = if index % 2 == 0 { 0.0 } else { 9.0 };
                        @for step in 0..((bottom - fill) / 34.0) as i64 {
                            @let y = bottom - 16.0 - rise - 32.0 * step as f64;
                            @if y - 26.0 > fill + 6.0 {
                                path.pen.thin d=(format!("M{} {}c-8-6-8-18 4-22s20 4 18 12-12 16-22 10z", n(x), n(y))) {}
                            }
                        }
                    }
                }
                path.pen.thin d=(format!("M20 {f}q15-5 30 0t30 0 30 0 30 0 30 0", f = n(fill))) {}
            }
            path.pen.heavy d=(outline) {}
            rect.pen.on-slip x="32" y="30" width="102" height="18" rx="3" {}
            rect.pen.on-slip x="36" y="18" width="94" height="12" rx="3" {}
            path.mad d=(format!("M128 52H196M140 {f}H196M178 52V{f}M173 57l5-5 5 5M173 {g}l5 5 5-5", f = n(fill), g = n(fill - 5.0))) {}
            text.tr x="206" y="66" { (jar.headspace) }
            text x="206" y="86" { (jar.headspace_metric) " headspace" }
            @for (index, words) in jar.holds.iter().take(4).enumerate() {
                @let from = (fill + 26.0).max(118.0);
                @let y = from + (bottom - 24.0 - from) * if rows < 2 { 0.4 } else { index as f64 / (rows - 1) as f64 };
                path.pen.thin d=(format!("M118 {y}H196", y = n(y))) {}
                text.tb x="206" y=(n(y + 5.0)) { (words) }
            }
            text.mid x="83" y=(n(bottom + 26.0)) { (jar.size) }
        }
    }
}

fn list(holds: &[&str]) -> String {
    if holds.is_empty() {
        String::new()
    } else {
        format!(" In it from the top: {}.", holds.join(", "))
    }
}
