//! Measures the built program as a household meets it: from start to first
//! page, page by page, the plan of the demo week, memory and weight.
//!
//! Wall times depend on the machine and on what else it does, so each stands
//! beside a yardstick measured in the same run: the start of a program that
//! does nothing, the smallest answer of the same server. Compare the ratios.

mod program;
mod spread;

use std::path::Path;
use std::time::Instant;

use program::{Fault, Program, get, run, size_as_sent};
use spread::Spread;

/// Date and time the demo household is looked at.
const WHEN: [&str; 4] = ["--date", "2026-08-27", "--time", "07:30"];

const PAGES: [&str; 7] = [
    "/counter", "/plan", "/batch", "/day", "/stores", "/process", "/house",
];

fn main() -> std::process::ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let [binary] = arguments.as_slice() else {
        eprintln!("usage: bench PATH-OF-THE-STILLROOM-BINARY");
        return std::process::ExitCode::from(2);
    };
    let folder = std::env::temp_dir().join(format!("stillroom-bench-{}", std::process::id()));
    let result = std::fs::create_dir_all(&folder)
        .map_err(Fault::from)
        .and_then(|()| measure(Path::new(binary), &folder));
    if let Err(fault) = std::fs::remove_dir_all(&folder) {
        eprintln!("bench: {} is left behind: {fault}", folder.display());
    }
    match result {
        Ok(()) => std::process::ExitCode::SUCCESS,
        Err(fault) => {
            eprintln!("bench: {fault}");
            std::process::ExitCode::FAILURE
        }
    }
}

fn measure(binary: &Path, folder: &Path) -> Result<(), Fault> {
    println!("{} cores; load before: {}", cores(), load());
    let household = folder.join("household");
    let started = Instant::now();
    run(binary, &household, &["demo", "--once"])?;
    println!(
        "demo household set up once in {:.0} ms\n",
        started.elapsed().as_secs_f64() * 1000.0
    );
    println!(
        "{:<34} {:>9} {:>9} {:>9}   wanted",
        "", "min", "median", "max"
    );
    plans(binary, folder, &household)?;
    starts(binary, &household)?;
    pages(binary, &household)
}

/// The plan of the demo week, from the start of the command to its printed
/// answer: as a household asks for it, and by fixed counts of steps.
fn plans(binary: &Path, folder: &Path, household: &Path) -> Result<(), Fault> {
    let ways: [(&str, &[&str], &str); 4] = [
        ("plan of the week, as asked", &[], "200 ms"),
        ("plan of the week, 200 steps", &["--iterations", "200"], ""),
        (
            "plan of the week, 2,000 steps",
            &["--iterations", "2000"],
            "",
        ),
        (
            "plan of the week, 20,000 steps",
            &["--iterations", "20000"],
            "",
        ),
    ];
    let mut yardstick = Spread::default();
    for round in 0..11 {
        let copy = folder.join(format!("counter-{round}"));
        copy_folder(household, &copy)?;
        let started = Instant::now();
        run(binary, &copy, &asked("counter", &[]))?;
        yardstick.add(started.elapsed());
    }
    for (name, more, wanted) in ways {
        let mut times = Spread::default();
        let mut gap = 0.0;
        for round in 0..11 {
            // Each round plans on a copy of its own, so that none finds the plan of the one before.
            let copy = folder.join(format!("plan-{}-{round}", more.len() + more.join("").len()));
            copy_folder(household, &copy)?;
            let mut arguments = vec!["--make"];
            arguments.extend(more);
            let started = Instant::now();
            let printed = run(binary, &copy, &asked("plan", &arguments))?;
            times.add(started.elapsed());
            gap = number_after(&printed, "\"gap_percent\":").ok_or("the plan names no gap")?;
        }
        times.print(name, wanted);
        println!("{:<34} gap {gap:.1} %", "");
    }
    let mut days = Spread::default();
    for round in 0..11 {
        let copy = folder.join(format!("day-{round}"));
        copy_folder(household, &copy)?;
        let started = Instant::now();
        run(binary, &copy, &asked("day", &["--make"]))?;
        days.add(started.elapsed());
    }
    days.print("timetable of the first day", "");
    yardstick.print("  yardstick: counter, command", "");
    Ok(())
}

/// One command's arguments, on the demo's own day, with JSON out.
fn asked<'a>(command: &'a str, more: &[&'a str]) -> Vec<&'a str> {
    let mut arguments = vec![command, "--json"];
    arguments.extend(WHEN);
    arguments.extend(more);
    arguments
}

/// From the start of the process to the first page read.
fn starts(binary: &Path, household: &Path) -> Result<(), Fault> {
    let mut first_page = Spread::default();
    let mut yardstick = Spread::default();
    for _ in 0..21 {
        let started = Instant::now();
        let program = Program::serve(binary, household)?;
        get(program.address(), "/counter", false)?;
        first_page.add(started.elapsed());
        drop(program);
        let started = Instant::now();
        run(binary, household, &["--version"])?;
        yardstick.add(started.elapsed());
    }
    first_page.print("start to first page", "150 ms");
    yardstick.print("  yardstick: start, print version", "");
    first_page.print_ratio(&yardstick);
    Ok(())
}

/// Each page's time, weight, and the memory after all of them.
fn pages(binary: &Path, household: &Path) -> Result<(), Fault> {
    let program = Program::serve(binary, household)?;
    let batch = first_batch(&program)?;
    let mut paths: Vec<String> = PAGES.iter().map(|path| (*path).to_owned()).collect();
    paths.insert(3, batch);
    // The smallest answer the same server gives: an address that is not there.
    let mut yardstick = Spread::default();
    for _ in 0..200 {
        let started = Instant::now();
        get(program.address(), "/no-such-page", true)?;
        yardstick.add(started.elapsed());
    }
    yardstick.print("yardstick: no such page", "");
    let mut weights = Vec::new();
    for path in &paths {
        let mut times = Spread::default();
        for _ in 0..200 {
            let started = Instant::now();
            get(program.address(), path, false)?;
            times.add(started.elapsed());
        }
        times.print(&format!("page {path}"), "10 ms");
        times.print_ratio(&yardstick);
        let plain = get(program.address(), path, false)?;
        let packed = size_as_sent(program.address(), path)?;
        weights.push((path.clone(), plain.len(), packed));
    }
    println!(
        "\n{:<34} {:>9} {:>9}   wanted",
        "weight", "plain", "as sent"
    );
    for (path, plain, packed) in weights {
        println!(
            "{:<34} {:>6.1} kB {:>6.1} kB   80 kB",
            format!("page {path}"),
            kilo(plain),
            kilo(packed)
        );
    }
    for asset in assets(&program)? {
        let plain = get(program.address(), &asset, false)?.len();
        let packed = size_as_sent(program.address(), &asset)?;
        println!(
            "{:<34} {:>6.1} kB {:>6.1} kB   (kept by the browser)",
            asset,
            kilo(plain),
            kilo(packed)
        );
    }
    let (now, most) = program.memory()?;
    println!(
        "\nresident memory after {} pages: {:.1} MB, at most {:.1} MB   wanted 80 MB",
        200 * (paths.len() + 1),
        now,
        most
    );
    Ok(())
}

/// The address of a batch of the demo, as the list of batches names it.
fn first_batch(program: &Program) -> Result<String, Fault> {
    let list = get(program.address(), "/batch", false)?;
    let list = String::from_utf8_lossy(&list).into_owned();
    list.split("href=\"")
        .skip(1)
        .filter_map(|rest| rest.split('"').next())
        .find(|link| {
            link.strip_prefix("/batch/")
                .is_some_and(|id| !id.is_empty() && id.chars().all(|c| c.is_ascii_digit()))
        })
        .map(str::to_owned)
        .ok_or_else(|| "the demo has no batch to open".into())
}

/// Style sheets and scripts that the pages name.
fn assets(program: &Program) -> Result<Vec<String>, Fault> {
    let page = get(program.address(), "/counter", false)?;
    let page = String::from_utf8_lossy(&page).into_owned();
    let mut found: Vec<String> = page
        .split(['"', '\''])
        .filter(|text| {
            text.starts_with('/')
                && [".css", ".js"].iter().any(|ending| {
                    text.split('?')
                        .next()
                        .is_some_and(|path| path.ends_with(ending))
                })
        })
        .map(str::to_owned)
        .collect();
    found.sort();
    found.dedup();
    Ok(found)
}

fn kilo(bytes: usize) -> f64 {
    bytes as f64 / 1000.0
}

fn number_after(text: &str, name: &str) -> Option<f64> {
    let (_, rest) = text.split_once(name)?;
    let digits: String = rest
        .trim_start()
        .chars()
        .take_while(|c| c.is_ascii_digit() || *c == '.')
        .collect();
    digits.parse().ok()
}

fn copy_folder(from: &Path, to: &Path) -> Result<(), Fault> {
    std::fs::create_dir_all(to)?;
    for entry in std::fs::read_dir(from)? {
        let entry = entry?;
        if entry.file_type()?.is_file() {
            std::fs::copy(entry.path(), to.join(entry.file_name()))?;
        }
    }
    Ok(())
}

fn cores() -> usize {
    std::thread::available_parallelism().map_or(0, std::num::NonZero::get)
}

fn load() -> String {
    std::fs::read_to_string("/proc/loadavg").map_or_else(
        |_| "unknown".to_owned(),
        |text| text.split(' ').take(3).collect::<Vec<_>>().join(" "),
    )
}
