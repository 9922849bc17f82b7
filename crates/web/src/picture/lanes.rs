//! Lane chart: hands, burners, pots and canners against the clock, one now-line through them all.

use super::{across, n};
use maud::{Markup, html};

/// Input of the chart. Times are minutes after midnight.
#[derive(Debug, Clone)]
pub struct Chart {
    /// Left edge.
    pub from: i64,
    /// Right edge.
    pub to: i64,
    /// Where the now-line stands; none on another day.
    pub now: Option<i64>,
    /// Lanes from the top.
    pub lanes: Vec<Lane>,
}

/// One thing that can do only so much at a time.
#[derive(Debug, Clone)]
pub struct Lane {
    /// Its name.
    pub name: String,
    /// A few words more.
    pub detail: String,
    /// What it does, in order of start. Blocks at one time are drawn one below the other.
    pub blocks: Vec<Block>,
}

/// A stretch of time in a lane.
#[derive(Debug, Clone)]
pub struct Block {
    /// Start.
    pub from: i64,
    /// End.
    pub to: i64,
    /// What is done.
    pub title: String,
    /// The number it has in the list beside the chart.
    pub number: Option<usize>,
    /// Needs nobody.
    pub alone: bool,
    /// Only held between two steps.
    pub hold: bool,
}

const ROW: f64 = 40.0;

impl Chart {
    fn share(&self, minute: i64) -> f64 {
        (minute - self.from) as f64 / (self.to - self.from).max(1) as f64
    }
}

/// "7:05" of a minute after midnight.
pub fn clock(minute: i64) -> String {
    format!("{}:{:02}", minute.div_euclid(60), minute.rem_euclid(60))
}

/// The chart of the whole day, and on a phone the two hours around now, where now is known.
pub fn draw(chart: &Chart) -> Markup {
    let near = chart.now.map(|now| Chart {
        from: (now - 15).max(chart.from),
        to: (now + 120).min(chart.to.max(now + 30)),
        ..chart.clone()
    });
    html! {
        (rows(chart, if near.is_some() { "lanes all wide" } else { "lanes all" }, 760.0))
        @if let Some(near) = near { (rows(&near, "lanes near", 330.0)) }
    }
}

fn rows(chart: &Chart, class: &str, pixels: f64) -> Markup {
    html! {
        div class=(class) tabindex=[class.starts_with("lanes all").then_some("0")] role="group" aria-label=(format!("Lanes from {} to {}", clock(chart.from), clock(chart.to))) {
            div.nm aria-hidden="true" {}
            (axis(chart, pixels))
            @for lane in &chart.lanes {
                @let shown: Vec<&Block> = lane.blocks.iter().filter(|block| block.to > chart.from && block.from < chart.to).collect();
                div.nm { (lane.name) @if !lane.detail.is_empty() { small { (lane.detail) } } }
                (row(chart, lane, &shown, pixels))
            }
        }
    }
}

fn ticks(chart: &Chart, pixels: f64) -> Vec<i64> {
    let room = (pixels / 62.0).max(1.0) as i64;
    let span = (chart.to - chart.from).max(1);
    let step = [15, 30, 60, 120, 180, 240]
        .into_iter()
        .find(|step| span / step <= room)
        .unwrap_or(360);
    let first = (chart.from + step - 1).div_euclid(step) * step;
    (0..)
        .map(|index| first + index * step)
        .take_while(|minute| *minute < chart.to)
        .collect()
}

fn axis(chart: &Chart, pixels: f64) -> Markup {
    html! {
        svg height="30" aria-hidden="true" {
            @for minute in ticks(chart, pixels) {
                @let at = across(chart.share(minute));
                line.hair2 x1=(at) x2=(at) y1="20" y2="30" {}
                // A label at the very edge would stand outside the chart.
                @if chart.share(minute) < 1.0 - 46.0 / pixels { text x=(at) dx="4" y="17" { (clock(minute)) } }
            }
            @if let Some(now) = chart.now.filter(|now| (chart.from..=chart.to).contains(now)) {
                line.nowl x1=(across(chart.share(now))) x2=(across(chart.share(now))) y1="0" y2="30" data-now=(now) data-from=(chart.from) data-to=(chart.to) {}
            }
        }
    }
}

/// Gives every block the first row in which nothing lies at its time.
fn stacked(blocks: &[&Block]) -> (Vec<usize>, usize) {
    let mut free_from: Vec<i64> = Vec::new();
    let placed = blocks
        .iter()
        .map(|block| {
            let row = free_from
                .iter()
                .position(|end| *end <= block.from)
                .unwrap_or_else(|| {
                    free_from.push(i64::MIN);
                    free_from.len() - 1
                });
            free_from[row] = block.to;
            row
        })
        .collect();
    (placed, free_from.len().max(1))
}

fn row(chart: &Chart, lane: &Lane, blocks: &[&Block], pixels: f64) -> Markup {
    let (placed, deep) = stacked(blocks);
    html! {
        svg height=(n(deep as f64 * ROW + 10.0)) role="img" aria-label=(says(lane, blocks)) {
            @for minute in ticks(chart, pixels) {
                @let at = across(chart.share(minute));
                line.hair x1=(at) x2=(at) y1="0" y2="100%" {}
            }
            @for (index, (block, row)) in blocks.iter().zip(&placed).enumerate() {
                @let left = chart.share(block.from).max(0.0);
                @let wide = chart.share(block.to).min(1.0) - left;
                @let y = *row as f64 * ROW + 9.0;
                rect class=(look(chart, block)) x=(across(left)) y=(n(y)) width=(across(wide)) height="32" {}
                (words(block, (left, wide), y, pixels, chart.now.is_some_and(|now| block.from <= now && now < block.to), free_around(chart, blocks, &placed, index)))
            }
            @if let Some(now) = chart.now {
                line.nowl x1=(across(chart.share(now))) x2=(across(chart.share(now))) y1="0" y2="100%" data-now=(now) data-from=(chart.from) data-to=(chart.to) {}
            }
        }
    }
}

fn look(chart: &Chart, block: &Block) -> String {
    let mut class = String::from("blk");
    if let Some(now) = chart.now {
        if block.to <= now {
            class.push_str(" past");
        } else if block.from <= now && !block.hold {
            class.push_str(" live");
        }
    }
    if block.hold {
        class.push_str(" hold");
    } else if block.alone {
        class.push_str(" alone");
    }
    class
}

/// Number and title inside the block, cut at its edge; in a block too small for either the number
/// alone, if nothing beside it is in the way. The list beside the chart has them all.
fn words(
    block: &Block,
    (left, wide): (f64, f64),
    y: f64,
    pixels: f64,
    live: bool,
    free: f64,
) -> Markup {
    let room = wide * pixels;
    let number = block
        .number
        .map(|number| number.to_string())
        .unwrap_or_default();
    let text = match (number.is_empty(), room >= 62.0) {
        (false, true) => format!("{number} {}", block.title),
        (true, true) => block.title.clone(),
        _ => number,
    };
    let digits = text.len() as f64 * 10.0 + 4.0;
    let on_ink = (live && !block.hold).then_some("to");
    html! {
        @if room >= 62.0 || (!text.is_empty() && room >= digits + 6.0) {
            svg.clip x=(across(left)) y=(n(y)) width=(across(wide)) height="32" { text class=[on_ink] x="6" y="21" { (text) } }
        } @else if !text.is_empty() && free * pixels >= digits {
            svg x=(across(left + wide / 2.0)) y=(n(y)) { text class=(if live && room >= digits { "mid to" } else { "mid" }) y="21" { (text) } }
        }
    }
}

/// The share of the chart around a block that no other block of its row takes, as seen from its middle.
fn free_around(chart: &Chart, blocks: &[&Block], rows: &[usize], index: usize) -> f64 {
    let block = blocks[index];
    let whole = (chart.to - chart.from).max(1) as f64;
    let middle = (block.from + block.to) as f64 / 2.0;
    let mut nearest = whole;
    for (place, other) in blocks.iter().enumerate() {
        if place != index && rows[place] == rows[index] {
            let gap = if other.from >= block.to {
                other.from as f64 - middle
            } else {
                middle - other.to as f64
            };
            nearest = nearest.min(gap);
        }
    }
    2.0 * nearest / whole
}

fn says(lane: &Lane, blocks: &[&Block]) -> String {
    let parts: Vec<String> = blocks
        .iter()
        .map(|block| {
            let how = if block.hold {
                ", held"
            } else if block.alone {
                ", needs nobody"
            } else {
                ""
            };
            format!(
                "{} {} to {}{how}",
                block.title,
                clock(block.from),
                clock(block.to)
            )
        })
        .collect();
    format!(
        "{}: {}.",
        lane.name,
        if parts.is_empty() {
            "free".into()
        } else {
            parts.join("; ")
        }
    )
}

/// What the looks mean.
pub fn key(now: bool) -> Markup {
    html! {
        ul.key aria-label="Looks of the blocks" {
            @if now {
                li { svg { rect.blk.past x="1" y="2" width="33" height="14" {} } "past" }
                li { svg { rect.blk.live x="1" y="2" width="33" height="14" {} } "running" }
            }
            li { svg { rect.blk x="1" y="2" width="33" height="14" {} } "to come" }
            li { svg { rect.blk.alone x="1" y="2" width="33" height="14" {} } "needs nobody" }
            li { svg { rect.blk.hold x="1" y="2" width="33" height="14" {} } "taken, waiting" }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{Block, Chart, Lane, clock, draw, stacked, ticks};

    fn block(from: i64, to: i64) -> Block {
        Block {
            from,
            to,
            title: "fill".into(),
            number: Some(1),
            alone: false,
            hold: false,
        }
    }

    #[test]
    fn blocks_at_one_time_never_share_a_row() {
        let (a, b, c) = (block(480, 540), block(500, 560), block(540, 600));
        let (rows, deep) = stacked(&[&a, &b, &c]);
        assert_eq!((rows, deep), (vec![0, 1, 0], 2));
    }

    #[test]
    fn a_long_day_has_few_enough_hour_marks() {
        let chart = Chart {
            from: 425,
            to: 1200,
            now: None,
            lanes: vec![],
        };
        let marks = ticks(&chart, 330.0);
        assert!(
            marks.len() <= 6 && marks.iter().all(|minute| minute % 60 == 0),
            "{marks:?}"
        );
    }

    #[test]
    fn the_lane_says_its_steps_with_start_and_end() {
        let chart = Chart {
            from: 480,
            to: 600,
            now: None,
            lanes: vec![Lane {
                name: "Burner 1".into(),
                detail: String::new(),
                blocks: vec![block(485, 545)],
            }],
        };
        assert!(
            draw(&chart)
                .into_string()
                .contains("Burner 1: fill 8:05 to 9:05.")
        );
        assert_eq!(clock(0), "0:00");
    }
}
