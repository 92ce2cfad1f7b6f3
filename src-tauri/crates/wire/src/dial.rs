//! Reaching a hub: enrolling once, and asking ever after.

use crate::answer::bytes_of;
use crate::pin::{Met, Pin, config};
use provenohm_api::network::{Enrolled, Enrolling, HubAt, Network};
use provenohm_assess::ids::DeviceId;
use provenohm_exchange::bundle::write;
use provenohm_exchange::hub::{JobsThere, Lacks, Line, NoAnswer, PROTOCOL, Page, Pull, Tell, read, written};
use provenohm_logbook::entry::body::Book;
use provenohm_logbook::entry::{Coded, Entry, Hash};
use reqwest::blocking::Client;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use std::net::IpAddr;
use std::sync::Arc;
use std::sync::atomic::Ordering;
use std::time::Duration;

/// For a connection to be made.
const CONNECT: Duration = Duration::from_secs(5);
/// For a whole answer: a large bundle over a slow line.
const ANSWER: Duration = Duration::from_secs(300);

/// What reaches hubs from this device.
#[derive(Debug, Default)]
pub struct Wire;

/// A hub that this device is enrolled at.
#[derive(Debug)]
pub struct HttpLine {
    client: Client,
    met: Arc<Met>,
    at: String,
    secret: String,
}

#[derive(Serialize)]
struct Asked {
    said: String,
    device: DeviceId,
    name: String,
}

#[derive(Deserialize)]
struct Told {
    said: String,
    secret: String,
}

impl Network for Wire {
    fn enrol(&self, asked: &Enrolling) -> Result<Enrolled, NoAnswer> {
        let met = Arc::new(Met::default());
        let client = client(None, &met)?;
        let at = url(&asked.address);
        // The certificate is met before anything is said.
        bytes_of(client.get(format!("{at}/sync")).send())?;
        let pin = met.first.get().copied();
        let code = &asked.code;
        let said = Asked {
            said: code.by_phone(pin, asked.device).to_string(),
            device: asked.device,
            name: asked.name.clone(),
        };
        let told = bytes_of(client.post(format!("{at}/sync/{PROTOCOL}/enrol")).json(&said).send())?;
        let told: Told = serde_json::from_slice(&told).map_err(|_| NoAnswer::NotReached)?;
        if told.said.parse::<Hash>().ok() != Some(code.by_hub(pin, asked.device)) {
            // Somebody in between, or another program.
            return Err(NoAnswer::NotTheHub);
        }
        Ok(Enrolled { address: asked.address.clone(), pin, secret: told.secret })
    }

    fn line(&self, hub: &HubAt) -> Result<Box<dyn Line + Send>, NoAnswer> {
        let met = Arc::default();
        let client = client(hub.pin, &met)?;
        let line = HttpLine { client, met, at: url(&hub.address), secret: hub.secret.clone() };
        Ok(Box::new(line))
    }
}

impl HttpLine {
    fn ask(&self, what: &str, bytes: Vec<u8>) -> Result<Vec<u8>, NoAnswer> {
        let request = self.client.post(format!("{}/sync/{PROTOCOL}/{what}", self.at));
        let answer = bytes_of(request.bearer_auth(&self.secret).body(bytes).send());
        // Somebody was reached, and not the hub that was met when this device was enrolled.
        if answer.is_err() && self.met.other.load(Ordering::SeqCst) { Err(NoAnswer::OtherKey) } else { answer }
    }

    fn asked<T: Coded>(&self, what: &str, bytes: Vec<u8>) -> Result<T, NoAnswer> {
        Ok(read(&self.ask(what, bytes)?)?)
    }
}

impl Line for HttpLine {
    fn tell(&mut self, tell: &Tell) -> Result<Lacks, NoAnswer> {
        self.asked("tell", written(tell))
    }

    fn send(&mut self, piece: &BTreeMap<Book, Vec<Entry>>) -> Result<(), NoAnswer> {
        let Some(first) = piece.keys().next() else { return Ok(()) };
        self.ask("send", write(None, *first, piece)?).map(drop)
    }

    fn pull(&mut self, pull: &Pull) -> Result<Page, NoAnswer> {
        self.asked("pull", written(pull))
    }

    fn jobs(&mut self) -> Result<JobsThere, NoAnswer> {
        self.asked("jobs", Vec::new())
    }
}

/// To this certificate, straight: what stands in between sees nothing and is asked for nothing.
fn client(pin: Option<Pin>, met: &Arc<Met>) -> Result<Client, NoAnswer> {
    let tls = config(pin, met).map_err(|_| NoAnswer::NotReached)?;
    Client::builder()
        .tls_backend_preconfigured(tls)
        .no_proxy()
        .redirect(reqwest::redirect::Policy::none())
        .connect_timeout(CONNECT)
        .timeout(ANSWER)
        .build()
        .map_err(|_| NoAnswer::NotReached)
}

/// The address with its scheme: encrypted, unless it is this machine's own and says nothing else.
fn url(address: &str) -> String {
    let plain = address.trim_start_matches("https://");
    let host = plain.rsplit_once(':').map_or(plain, |(host, _)| host).trim_matches(['[', ']']);
    let here = host == "localhost" || host.parse::<IpAddr>().is_ok_and(|ip| ip.is_loopback());
    let scheme = if here && plain == address { "http" } else { "https" };
    format!("{scheme}://{plain}")
}
