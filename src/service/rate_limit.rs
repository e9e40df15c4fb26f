//! How often one caller may ask, if that is limited: so many requests a second by the caller's address, with some at
//! once. Callers that have not asked for a while are forgotten, so that memory stays small.

use super::problem::Problem;
use super::settings::{Forwarded, Settings};
use actix_web::HttpResponse;
use actix_web::dev::ServiceRequest;
use actix_web::http::{StatusCode, header};
use governor::clock::{Clock, DefaultClock};
use governor::state::keyed::HashMapStateStore;
use governor::{Quota, RateLimiter};
use std::net::{IpAddr, Ipv6Addr};
use std::time::Duration;

/// How often callers are forgotten.
const PRUNED: Duration = Duration::from_secs(1);

/// Addresses that are asked by what watches the service, and never limited.
const FREE: [&str; 3] = ["/healthz", "/readyz", "/metrics"];

/// The limit of each caller.
pub struct RateLimit {
    callers: RateLimiter<IpAddr, HashMapStateStore<IpAddr>, DefaultClock>,
    trusted: Option<Forwarded>,
}

impl RateLimit {
    /// The limit that is set, if any is.
    pub fn of(settings: &Settings) -> Option<Self> {
        let rate = settings.rate_limit?;
        let quota = Quota::per_second(rate).allow_burst(settings.rate_burst.unwrap_or(rate));
        Some(Self { callers: RateLimiter::hashmap(quota), trusted: settings.trust_forwarded })
    }

    /// Counts a request; 429 where its caller has asked too often.
    pub fn count(&self, request: &ServiceRequest) -> Option<HttpResponse> {
        if FREE.contains(&request.path()) {
            return None;
        }
        let caller = kept(self.caller(request)?);
        let wait = self.callers.check_key(&caller).err()?.wait_time_from(DefaultClock::default().now());
        let seconds = wait.as_secs() + 1;
        let says = "You ask more often than this service allows.";
        let again = format!("again in {seconds} s, or many requests in one at /v1/batch");
        let mut response = Problem::whole(StatusCode::TOO_MANY_REQUESTS, says, again).respond();
        response.headers_mut().insert(header::RETRY_AFTER, seconds.into());
        Some(response)
    }

    /// Who asks: the other end of the connection, or who that says it asks for, where it is trusted.
    fn caller(&self, request: &ServiceRequest) -> Option<IpAddr> {
        let forwarded = self.trusted.and_then(|trusted| {
            let last = request.headers().get_all(trusted.name()).last()?.to_str().ok()?;
            trusted.nearest_hop(last)
        });
        forwarded.or_else(|| Some(request.peer_addr()?.ip()))
    }

    /// Forgets, now and then, callers that have not asked for so long that all is allowed them again.
    pub async fn forget(&self) {
        loop {
            tokio::time::sleep(PRUNED).await;
            self.callers.retain_recent();
            self.callers.shrink_to_fit();
        }
    }
}

/// The part of an address that a caller cannot change at will: of version 6 the network.
fn kept(address: IpAddr) -> IpAddr {
    match address.to_canonical() {
        IpAddr::V6(six) => IpAddr::V6(Ipv6Addr::from_bits(six.to_bits() >> 64 << 64)),
        four => four,
    }
}

impl Forwarded {
    fn name(self) -> &'static str {
        match self {
            Self::XForwardedFor => "x-forwarded-for",
            Self::Forwarded => "forwarded",
        }
    }

    /// The address that the last entry of the header's last line names: what the balancer wrote itself.
    fn nearest_hop(self, line: &str) -> Option<IpAddr> {
        let last = line.rsplit(',').next()?.trim();
        let named = match self {
            Self::XForwardedFor => last,
            Self::Forwarded => last.split(';').find_map(|pair| {
                let (name, value) = pair.trim().split_once('=')?;
                name.eq_ignore_ascii_case("for").then_some(value)
            })?,
        };
        let named = named.trim_matches('"');
        let bare = match named.strip_prefix('[') {
            Some(six) => six.split(']').next()?,
            // A port behind an address of version 4.
            None if named.matches(':').count() == 1 => named.split(':').next()?,
            None => named,
        };
        bare.parse().ok()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_nearest_hop_is_the_last_named() {
        for (line, is) in [
            ("203.0.113.9, 198.51.100.7", "198.51.100.7"),
            ("198.51.100.7:4711", "198.51.100.7"),
            ("2001:db8::1", "2001:db8::1"),
            ("[2001:db8::1]:443", "2001:db8::1"),
        ] {
            assert_eq!(Forwarded::XForwardedFor.nearest_hop(line), is.parse().ok(), "{line}");
        }
        for (line, is) in [
            ("for=203.0.113.9, for=198.51.100.7;proto=https", "198.51.100.7"),
            ("proto=https;For=\"[2001:db8::1]:443\"", "2001:db8::1"),
        ] {
            assert_eq!(Forwarded::Forwarded.nearest_hop(line), is.parse().ok(), "{line}");
        }
        for nobody in ["", "unknown", "_hidden", "198.51.100.7, "] {
            assert_eq!(Forwarded::XForwardedFor.nearest_hop(nobody), None, "{nobody}");
        }
    }

    #[test]
    fn a_network_of_version_6_is_one_caller() {
        let kept = |text: &str| kept(text.parse().unwrap());
        assert_eq!(kept("2001:db8:1:2:3::4"), kept("2001:db8:1:2::9"));
        assert_ne!(kept("2001:db8:1:2::4"), kept("2001:db8:1:3::4"));
        assert_eq!(kept("::ffff:198.51.100.7"), kept("198.51.100.7"));
    }
}
