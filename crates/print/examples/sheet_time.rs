//! How long a sheet of thirty labels takes: the middle of twenty runs, in milliseconds.
//!
//! `cargo run --release -p print --example sheet_time [FILE]` also writes the sheet when a file is
//! named. The aim is under 300 ms.

use print::{Code, JarLabel, Label, Laying, labels};
use std::time::Instant;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut all = Vec::new();
    for number in 1..=30 {
        let code = Code {
            batch: 12,
            container: number,
        }
        .to_text()?;
        all.push(Label::Jar(JarLabel {
            product: if number % 3 == 0 {
                "Tomato and vegetable juice blend with celery".into()
            } else {
                "Crushed tomatoes".into()
            },
            container: format!("Quart {number} of 30"),
            batch: "batch 12, load 2".into(),
            made: "Made 13 August 2026".into(),
            best: "Best by 13 August 2027".into(),
            ripen_until: String::new(),
            place: "shelf".into(),
            address: format!("http://stillroom.home.arpa:7310/jar/{code}"),
            code,
        }));
    }
    let laying = Laying::on("30-letter")?;
    let mut times = Vec::new();
    let mut bytes = Vec::new();
    for _ in 0..20 {
        let begun = Instant::now();
        bytes = labels(&all, &laying, false)?;
        times.push(begun.elapsed());
    }
    times.sort();
    println!(
        "30 labels: {:.1} ms, {} bytes",
        times[times.len() / 2].as_secs_f64() * 1000.0,
        bytes.len()
    );
    if let Some(file) = std::env::args().nth(1) {
        std::fs::write(file, bytes)?;
    }
    Ok(())
}
