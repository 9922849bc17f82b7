//! What a cut of the power at any moment may cost: the entry that was being written, no more.

use crate::{file, pick};
use ledger::invariant::all;
use std::fs;
use std::path::Path;
use store::Store;

/// Small and seeded, so that a failing offset can be found again.
struct Dice(u64);

impl Dice {
    fn roll(&mut self, below: u64) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut x = self.0;
        x = (x ^ (x >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        x = (x ^ (x >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        (x ^ (x >> 31)) % below
    }
}

/// A file and its log as they lay on the disk, with the length the log had when each entry was
/// acknowledged.
struct Disk {
    database: Vec<u8>,
    log: Vec<u8>,
    acknowledged_at: Vec<usize>,
}

fn disk(entries: i64) -> Disk {
    let (_folder, path) = file();
    let log = path.with_file_name("house.db-wal");
    // The schema is folded into the file first; the log then holds entries only.
    drop(Store::open(&path).unwrap());
    let store = Store::open(&path).unwrap();
    let mut acknowledged_at = Vec::new();
    for n in 1..=entries {
        pick(&store, n).unwrap();
        acknowledged_at.push(usize::try_from(fs::metadata(&log).unwrap().len()).unwrap());
    }
    let disk = Disk {
        database: fs::read(&path).unwrap(),
        log: fs::read(&log).unwrap(),
        acknowledged_at,
    };
    assert_eq!(
        disk.log.len(),
        *disk.acknowledged_at.last().unwrap(),
        "the log was folded in"
    );
    disk
}

/// Opens what was left and says how many entries it holds.
fn entries_after(disk: &Disk, log: &[u8], folder: &Path, name: &str) -> usize {
    let path = folder.join(format!("{name}.db"));
    fs::write(&path, &disk.database).unwrap();
    fs::write(folder.join(format!("{name}.db-wal")), log).unwrap();
    let store = Store::open(&path).unwrap_or_else(|error| panic!("{name}: {error}"));
    let rows = store.rows_for_check().unwrap();
    assert!(rows.file.holds(), "{name}: {:?}", rows.file);
    assert_eq!(rows.unreadable, [] as [String; 0]);
    for finding in all(&rows.books) {
        assert!(finding.holds(), "{name}: {finding:?}");
    }
    // Whole entries in order, each with its lot and its movement.
    let entries = rows.entries.len();
    assert_eq!(
        (rows.lots.len(), rows.books.movements.len()),
        (entries, entries),
        "{name}"
    );
    for (n, lot) in (1..).zip(&rows.lots) {
        assert_eq!(lot.milligrams, n);
    }
    // The household goes on.
    pick(&store, 7).unwrap();
    for ending in ["", "-wal", "-shm"] {
        let _ = fs::remove_file(folder.join(format!("{name}.db{ending}")));
    }
    entries
}

#[test]
fn a_log_cut_at_any_byte_keeps_every_entry_acknowledged_before() {
    let disk = disk(24);
    let folder = tempfile::tempdir().unwrap();
    let mut dice = Dice(24);
    let mut partly = 0;
    for n in 0..500 {
        // The interesting edges by design, the rest by dice.
        let cut = match disk.acknowledged_at.get(n / 2) {
            Some(edge) if n % 2 == 0 => *edge,
            Some(edge) => edge - 1,
            None => usize::try_from(dice.roll(disk.log.len() as u64 + 1)).unwrap(),
        };
        let acknowledged = disk.acknowledged_at.iter().filter(|at| **at <= cut).count();
        let kept = entries_after(
            &disk,
            &disk.log[..cut],
            folder.path(),
            &format!("cut-{cut}"),
        );
        assert_eq!(kept, acknowledged, "log cut at {cut}");
        partly += usize::from(kept > 0 && kept < 24);
    }
    assert!(
        partly > 300,
        "only {partly} of the cuts fell inside the entries"
    );
}

#[test]
fn rubbish_written_by_a_dying_disk_after_the_last_sync_costs_nothing_acknowledged() {
    let disk = disk(12);
    let folder = tempfile::tempdir().unwrap();
    let mut dice = Dice(12);
    for n in 0..100 {
        let cut = usize::try_from(dice.roll(disk.log.len() as u64 + 1)).unwrap();
        let acknowledged = disk.acknowledged_at.iter().filter(|at| **at <= cut).count();
        let mut log = disk.log[..cut].to_vec();
        for _ in 0..dice.roll(20_000) {
            log.push(u8::try_from(dice.roll(256)).unwrap());
        }
        let kept = entries_after(&disk, &log, folder.path(), &format!("rubbish-{n}"));
        assert_eq!(kept, acknowledged, "rubbish after {cut}");
    }
}
