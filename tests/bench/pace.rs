//! Sends requests at a constant rate, whether or not the answers keep up, and prints how long each was waited for from the
//! moment when it was due. `pace ADDRESS TEMPLATE RATE SECONDS CONNECTIONS`; with rate 0 each connection asks again at once.
//! One thread has all connections, so that it takes little of the processor from what it measures.

use rustix::event::{PollFd, PollFlags, Timespec, poll};
use std::hash::{BuildHasher, RandomState};
use std::io::{ErrorKind, Read, Write};
use std::net::TcpStream;
use std::time::{Duration, Instant};

type Failure = Box<dyn std::error::Error + Send + Sync>;
/// The lowest and the highest that a number may be.
type Between = (f64, f64);

/// What all connections have in common.
struct Plan {
    /// Words and the numbers between them, `<low..high>` in the template.
    words: Vec<String>,
    numbers: Vec<Between>,
    ends: Instant,
    /// From one request of a connection to its next.
    gap: Duration,
}

/// One connection.
struct Connection {
    stream: TcpStream,
    /// When the request that is being answered, or else the next one, is or was due.
    due: Instant,
    /// The next request, made beforehand.
    request: String,
    is_asked: bool,
    answer: Vec<u8>,
}

fn main() -> Result<(), Failure> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let [address, template, rate, seconds, connections] = arguments.as_slice() else {
        return Err("pace ADDRESS TEMPLATE RATE SECONDS CONNECTIONS".into());
    };
    let (rate, seconds, connections): (f64, f64, u32) = (rate.parse()?, seconds.parse()?, connections.parse()?);
    let (words, numbers) = parts(template)?;
    let gap = if rate > 0.0 { Duration::from_secs_f64(f64::from(connections) / rate) } else { Duration::ZERO };
    let mut random = RandomState::new().hash_one(template) | 1;
    let begins = Instant::now() + Duration::from_millis(200);
    let plan = Plan { words, numbers, ends: begins + Duration::from_secs_f64(seconds), gap };
    let connect = |at| -> Result<Connection, Failure> {
        let stream = TcpStream::connect(address)?;
        stream.set_nodelay(true)?;
        stream.set_nonblocking(true)?;
        let (due, request) = (begins + gap * at / connections, plan.drawn(&mut random));
        Ok(Connection { stream, due, request, is_asked: false, answer: Vec::new() })
    };
    let callers = (0..connections).map(connect).collect::<Result<_, _>>()?;
    let mut waits = ask(&plan, callers, &mut random)?;
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

/// Asks on every connection, each time when it is due; a late answer makes the next ones late, and their waits say so.
fn ask(plan: &Plan, mut callers: Vec<Connection>, random: &mut u64) -> Result<Vec<Duration>, Failure> {
    let mut waits = Vec::new();
    loop {
        let now = Instant::now();
        // What is due after the end is not asked any more.
        let is_due = |caller: &&mut Connection| !caller.is_asked && caller.due <= now && caller.due < plan.ends;
        for caller in callers.iter_mut().filter(is_due) {
            caller.stream.write_all(caller.request.as_bytes())?;
            caller.is_asked = true;
            caller.request = plan.drawn(random);
        }
        let idle = callers.iter().filter(|caller| !caller.is_asked).map(|caller| caller.due);
        let next = idle.min().filter(|next| *next < plan.ends);
        let asked: Vec<usize> = (0..callers.len()).filter(|at| callers[*at].is_asked).collect();
        if next.is_none() && asked.is_empty() {
            return Ok(waits);
        }
        let longest = next.unwrap_or(now + Duration::from_secs(30)).saturating_duration_since(Instant::now());
        let mut ready: Vec<_> = asked.iter().map(|at| PollFd::new(&callers[*at].stream, PollFlags::IN)).collect();
        if poll(&mut ready, Some(&Timespec::try_from(longest)?))? == 0 && next.is_none() {
            return Err("no answer for 30 s".into());
        }
        let ready: Vec<bool> = ready.iter().map(|one| !one.revents().is_empty()).collect();
        for (at, _) in asked.into_iter().zip(ready).filter(|(_, ready)| *ready) {
            let caller = &mut callers[at];
            if caller.receive()? {
                waits.push(caller.due.elapsed());
                caller.is_asked = false;
                caller.due = if plan.gap.is_zero() { Instant::now() } else { caller.due + plan.gap };
            }
        }
        if Instant::now() > plan.ends + Duration::from_secs(30) {
            return Err("the answers came far too slowly for this rate".into());
        }
    }
}

impl Plan {
    /// A request with numbers of its own.
    fn drawn(&self, random: &mut u64) -> String {
        let mut path = self.words[0].clone();
        for ((low, high), words) in self.numbers.iter().zip(&self.words[1..]) {
            // Marsaglia's xorshift.
            *random ^= *random << 13;
            *random ^= *random >> 7;
            *random ^= *random << 17;
            let share = (*random >> 11) as f64 / (1_u64 << 53) as f64;
            path += &format!("{:.4}{words}", low + share * (high - low));
        }
        format!("GET {path} HTTP/1.1\r\nHost: shop\r\n\r\n")
    }
}

impl Connection {
    /// Takes what has come of an answer; whether it is whole. Anything but 200 is an error.
    fn receive(&mut self) -> Result<bool, Failure> {
        let mut piece = [0; 16384];
        let got = match self.stream.read(&mut piece) {
            Ok(0) => return Err("the server closed a connection".into()),
            Ok(got) => got,
            Err(error) if error.kind() == ErrorKind::WouldBlock => return Ok(false),
            Err(error) => return Err(error.into()),
        };
        self.answer.extend_from_slice(&piece[..got]);
        let Some(end) = self.answer.windows(4).position(|four| four == b"\r\n\r\n") else { return Ok(false) };
        let head = std::str::from_utf8(&self.answer[..end])?.to_ascii_lowercase();
        if !head.starts_with("http/1.1 200") {
            return Err(format!("refused: {}", String::from_utf8_lossy(&self.answer)).into());
        }
        let length = head.lines().find_map(|line| line.strip_prefix("content-length:"));
        let length: usize = length.ok_or("an answer without its length")?.trim().parse()?;
        let is_whole = self.answer.len() >= end + 4 + length;
        if is_whole {
            self.answer.clear();
        }
        Ok(is_whole)
    }
}
