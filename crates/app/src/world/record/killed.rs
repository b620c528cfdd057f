//! A program killed while it writes readings: whatever it said was kept is kept, in order.

use super::Record;
use super::bakes::{Of, Reading};
use jiff::Timestamp;
use std::io::{BufRead, BufReader};
use std::path::Path;
use std::process::{Command, Stdio};
use std::sync::mpsc;
use std::time::Duration;

/// Names the folder to the program that writes; without it this is the test.
const FOLDER: &str = "EVERYOVEN_TEST_KILLED";
const NAME: &str = "world::record::killed::readings_outlive_a_kill";
const KILLS: u64 = 40;

/// Writes readings and says each one that is kept, until it is killed.
fn write_on(folder: &Path) {
    let record = Record::open(folder);
    let bake = match record.bakes(None).expect("read").first() {
        Some(bake) => bake.number,
        None => record
            .begin_bake("loaf", None, None, Timestamp::UNIX_EPOCH)
            .expect("begun"),
    };
    let there = record.readings(bake).expect("read");
    let mut next = there.last().map_or(1, |last| last.number + 1);
    loop {
        let reading = Reading {
            number: 0,
            step: None,
            of: Of::Note,
            value: None,
            unit: None,
            words: Some(format!("reading {next}")),
            at: Timestamp::UNIX_EPOCH,
            sent: Some(format!("mark {next}")),
        };
        let number = record.note_reading(bake, &reading).expect("kept");
        println!("kept {number}");
        next += 1;
    }
}

#[test]
fn readings_outlive_a_kill() {
    if let Some(folder) = std::env::var_os(FOLDER) {
        write_on(Path::new(&folder));
        return;
    }
    let folder = crate::web::tests::folder("record-killed");
    let mut state = 0x00C0_FFEE_u64;
    let mut said = 0;
    for kill in 0..KILLS {
        let mut program = Command::new(std::env::current_exe().expect("a test knows its path"))
            .args([NAME, "--exact", "--nocapture"])
            .env(FOLDER, &folder)
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("it starts");
        let out = BufReader::new(program.stdout.take().expect("its output"));
        let (kept, told) = mpsc::channel();
        let lines = std::thread::spawn(move || {
            let lines = out.lines().map_while(Result::ok);
            let numbers = lines.filter_map(|line| line.strip_prefix("kept ")?.parse::<i64>().ok());
            numbers
                .inspect(|_| {
                    let _ = kept.send(());
                })
                .max()
        });
        // A linear congruence with the multiplier of Knuth’s MMIX (from memory).
        state = state
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1);
        // On a busy machine a reading takes longer: so many are waited for, then the moment is random.
        for _ in 0..(state >> 40) % 4 {
            if told.recv().is_err() {
                break;
            }
        }
        std::thread::sleep(Duration::from_micros((state >> 33) % 20_000));
        program.kill().expect("killed");
        program.wait().expect("gone");
        said = lines.join().expect("it ends").unwrap_or(said).max(said);

        let record = Record::open(&folder);
        let Some(bake) = record
            .bakes(None)
            .expect("read")
            .first()
            .map(|bake| bake.number)
        else {
            assert_eq!(said, 0, "kill {kill}");
            continue;
        };
        let readings = record.readings(bake).expect("read");
        let count = i64::try_from(readings.len()).expect("few");
        assert!(
            count >= said,
            "kill {kill}: {said} were acknowledged, {count} are there"
        );
        for (index, reading) in readings.iter().enumerate() {
            assert_eq!(
                reading.words,
                Some(format!("reading {}", index + 1)),
                "kill {kill}"
            );
        }
        assert_eq!(record.moved_aside(), Vec::<String>::new(), "kill {kill}");
    }
    assert!(said > 20, "too little was written to tell: {said}");
}
