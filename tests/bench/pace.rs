//! Sends requests at a constant rate, whether or not the answers keep up, and prints how long each was waited for from the
//! moment when it was due. `pace ADDRESS TEMPLATE RATE SECONDS CONNECTIONS`; with rate 0 each connection asks again at once.

use std::hash::{BuildHasher, RandomState};
use std::io::{Read, Write};
use std::net::TcpStream;
use std::time::{Duration, Instant};

type Failure = Box<dyn std::error::Error + Send + Sync>;
/// The lowest and the highest that a number may be.
type Between = (f64, f64);

/// What all connections have in common.
#[derive(Clone)]
struct Plan {
    address: String,
    /// Words and the numbers between them, `<low..high>` in the template.
    words: Vec<String>,
    numbers: Vec<Between>,
    begins: Instant,
    lasts: Duration,
    /// From one request of a connection to its next.
    gap: Duration,
}

fn main() -> Result<(), Failure> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let [address, template, rate, seconds, connections] = arguments.as_slice() else {
        return Err("pace ADDRESS TEMPLATE RATE SECONDS CONNECTIONS".into());
    };
    let (rate, seconds, connections): (f64, f64, u32) = (rate.parse()?, seconds.parse()?, connections.parse()?);
    let (words, numbers) = parts(template)?;
    let gap = if rate > 0.0 { Duration::from_secs_f64(f64::from(connections) / rate) } else { Duration::ZERO };
    let begins = Instant::now() + Duration::from_millis(200);
    let plan = Plan { address: address.clone(), words, numbers, begins, lasts: Duration::from_secs_f64(seconds), gap };
    let callers: Vec<_> = (0..connections)
        .map(|at| {
            let (plan, first) = (plan.clone(), begins + gap * at / connections);
            std::thread::spawn(move || ask(&plan, first))
        })
        .collect();
    let mut waits: Vec<Duration> = Vec::new();
    for caller in callers {
        waits.extend(caller.join().map_err(|_| "a connection's thread failed")??);
    }
    let rate = waits.len() as f64 / begins.elapsed().as_secs_f64();
    waits.sort_unstable();
    let at = |share: f64| waits.get((waits.len() as f64 * share) as usize).or(waits.last());
    let ms = |wait: Option<&Duration>| wait.map_or(0.0, |wait| wait.as_secs_f64() * 1e3);
    let (p50, p99, most) = (ms(at(0.5)), ms(at(0.99)), ms(waits.last()));
    println!("{{\"rate\": {rate:.1}, \"p50\": {p50:.3}, \"p99\": {p99:.3}, \"most\": {most:.3}}}");
    Ok(())
}

/// The words of a template, one more than the numbers between them.
fn parts(template: &str) -> Result<(Vec<String>, Vec<Between>), Failure> {
    let mut pieces = template.split('<');
    let mut words = vec![pieces.next().unwrap_or_default().to_owned()];
    let mut numbers: Vec<Between> = Vec::new();
    for piece in pieces {
        let (inside, after) = piece.split_once('>').ok_or("a < without its >")?;
        let (low, high) = inside.split_once("..").ok_or("between < and > stand two numbers: <1..2>")?;
        numbers.push((low.parse()?, high.parse()?));
        words.push(after.to_owned());
    }
    Ok((words, numbers))
}

/// Asks on one connection, each time when it is due; a late answer makes the next ones late, and their waits say so.
fn ask(plan: &Plan, first: Instant) -> Result<Vec<Duration>, Failure> {
    let mut stream = TcpStream::connect(&plan.address)?;
    stream.set_nodelay(true)?;
    stream.set_read_timeout(Some(Duration::from_secs(30)))?;
    let mut random = RandomState::new().hash_one(first) | 1;
    let (mut waits, mut answer) = (Vec::new(), Vec::new());
    let (mut due, ends) = (first, plan.begins + plan.lasts);
    while due < ends {
        let request = drawn(plan, &mut random);
        std::thread::sleep(due.saturating_duration_since(Instant::now()));
        if plan.gap.is_zero() {
            due = Instant::now();
        }
        stream.write_all(request.as_bytes())?;
        receive(&mut stream, &mut answer)?;
        waits.push(due.elapsed());
        due += plan.gap;
        if Instant::now() > ends + plan.lasts {
            return Err("the answers came far too slowly for this rate".into());
        }
    }
    Ok(waits)
}

/// A request with numbers of its own.
fn drawn(plan: &Plan, random: &mut u64) -> String {
    let mut path = plan.words[0].clone();
    for ((low, high), words) in plan.numbers.iter().zip(&plan.words[1..]) {
        // Marsaglia's xorshift.
        *random ^= *random << 13;
        *random ^= *random >> 7;
        *random ^= *random << 17;
        let share = (*random >> 11) as f64 / (1_u64 << 53) as f64;
        path += &format!("{:.4}{words}", low + share * (high - low));
    }
    format!("GET {path} HTTP/1.1\r\nHost: shop\r\n\r\n")
}

/// Takes one whole answer off the connection; anything but 200 is an error.
fn receive(stream: &mut TcpStream, answer: &mut Vec<u8>) -> Result<(), Failure> {
    answer.clear();
    let mut piece = [0; 16384];
    loop {
        let got = stream.read(&mut piece)?;
        if got == 0 {
            return Err("the server closed a connection".into());
        }
        answer.extend_from_slice(&piece[..got]);
        let Some(end) = answer.windows(4).position(|four| four == b"\r\n\r\n") else { continue };
        let head = std::str::from_utf8(&answer[..end])?.to_ascii_lowercase();
        if !head.starts_with("http/1.1 200") {
            return Err(format!("refused: {}", String::from_utf8_lossy(answer)).into());
        }
        let length = head.lines().find_map(|line| line.strip_prefix("content-length:"));
        let length: usize = length.ok_or("an answer without its length")?.trim().parse()?;
        if answer.len() >= end + 4 + length {
            return Ok(());
        }
    }
}
