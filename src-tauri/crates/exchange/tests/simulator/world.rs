//! The devices, the mail between them, and everything that can go wrong with both.

use crate::acts::act;
use crate::chance::Chance;
use crate::device::Device;
use crate::office::Office;
use crate::support::{Hand, JOB, OTHER_TESTER, TESTER, moment, recorder_facts, wires};
use provenohm_assess::limits::{SHIPPED_FILES, shipped};
use provenohm_assess::policy::Policies;
use provenohm_exchange::bundle::{Bundle, NotABundle, books_of, write};
use provenohm_exchange::hub::{NoAnswer, Synced};
use provenohm_exchange::job_file::Made;
use provenohm_exchange::join::{Brought, Joined, look, take_in};
use provenohm_exchange::snapshot;
use provenohm_logbook::chain::Fault;
use provenohm_logbook::entry::body::{Book, JobRules};
use provenohm_logbook::entry::{Body, Bytes, Entry, EntryRef, Kind, LogId, Seq};
use provenohm_logbook::record::TakeInError;
use std::collections::{BTreeMap, BTreeSet};
use std::ops::ControlFlow;

/// The books everybody hands on.
const BOOKS: [Book; 3] =
    [Book::Job { job: JOB }, Book::Tester { tester: TESTER }, Book::Tester { tester: OTHER_TESTER }];
const MOST_DEVICES: usize = 5;
const STEPS: usize = 32;
/// With a hub more can happen.
const STEPS_WITH_A_HUB: usize = 44;
const MINUTES_A_YEAR: i64 = 365 * 24 * 60;

struct Letter {
    to: usize,
    bytes: Vec<u8>,
}

pub(crate) struct World {
    seed: u64,
    chance: Chance,
    devices: Vec<Device>,
    /// In every other schedule there is a hub, and at the end devices meet there and nowhere else.
    office: Option<Office>,
    mail: Vec<Letter>,
    minutes: i64,
    made: u128,
    /// Entries that were ever on a device.
    acknowledged: BTreeSet<EntryRef>,
    /// Entries that existed on one device only when that was lost or set back.
    lost: BTreeSet<EntryRef>,
    /// What happened, in order.
    pub(crate) told: Vec<String>,
    /// What was met on the way.
    pub(crate) met: BTreeSet<Met>,
}

/// What a schedule is for: all of it is met now and then.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Met {
    Fork,
    Gap,
    Vouched,
    Settled,
    Closed,
    Lost,
    Destroyed,
    Damaged,
    Stopped,
    Synced,
    BrokenOff,
    HubSetBack,
    InstanceDied,
    Lied,
    LieSeen,
    Revoked,
    Held,
    Accepted,
    /// A device's own file was copied: only then may a place in a log be given twice.
    Twin,
}

/// A seed that fails is told with all that happened, and how to run it again.
impl Drop for World {
    fn drop(&mut self) {
        if std::thread::panicking() {
            eprintln!("{}", self.told.join("\n"));
            eprintln!(
                "again: PROVENOHM_SEED={} PROVENOHM_SCHEDULES=1 cargo test -p provenohm-exchange --test simulator",
                self.seed
            );
        }
    }
}

fn on() -> impl FnMut(provenohm_exchange::join::Progress) -> ControlFlow<()> {
    |_| ControlFlow::Continue(())
}

impl World {
    pub(crate) fn new(seed: u64) -> Self {
        let mut chance = Chance::from(seed);
        let devices = (0..3).map(|_| Device::new(chance.number())).collect();
        let office = chance.one_in(2).then(|| Office::new(&mut chance));
        let mut world = Self {
            seed,
            office,
            chance,
            devices,
            mail: Vec::new(),
            minutes: 0,
            made: 0x1000,
            acknowledged: BTreeSet::new(),
            lost: BTreeSet::new(),
            told: Vec::new(),
            met: BTreeSet::new(),
        };
        recorder_facts(world.devices[0].hand_mut());
        let (set, bytes) = (shipped().unwrap()[0].name.clone(), Bytes(SHIPPED_FILES[0].to_vec()));
        let rules = JobRules { job: JOB, set, bytes, policies: Policies::default() };
        world.devices[0].hand_mut().append(Body::from(rules));
        world
    }

    /// Runs the whole schedule, then lets everybody meet, and holds what must be.
    pub(crate) fn run(&mut self) {
        let steps = if self.office.is_some() { STEPS_WITH_A_HUB } else { STEPS };
        for _ in 0..steps {
            self.step();
        }
        self.meet();
        self.hold();
    }

    fn step(&mut self) {
        self.minutes += 1 + self.chance.below(90) as i64;
        let at = self.chance.below(self.devices.len());
        let minutes = self.minutes;
        self.devices[at].at(minutes);
        match self.chance.below(if self.office.is_some() { 69 } else { 41 }) {
            0..=15 => self.acts(at),
            16..=23 => self.sends(at),
            24..=32 => self.delivers(),
            33 => self.tell(at, "restarts", |device| device.restart()),
            34 | 35 => {
                let whole = self.chance.one_in(3);
                if whole {
                    self.met.insert(Met::Twin);
                }
                self.tell(at, if whole { "is imaged" } else { "is backed up" }, |device| device.back_up(whole));
            }
            36 => self.restores(at),
            37 => self.clones(at),
            38 => {
                let years = self.chance.below(13) as i64 - 6;
                self.tell(at, &format!("is {years} years wrong"), |device| device.wrong = years * MINUTES_A_YEAR);
            }
            39 => self.is_destroyed(at),
            41..=54 => self.syncs(at),
            55 => self.office_is_set_back("is backed up", |office, _| office.back_up()),
            56 | 57 => self.office_is_set_back("is set back", |office, _| office.restore()),
            58 => self.office_is_set_back("is lost", |office, _| office.is_lost()),
            59 => self.office_is_set_back("has another instance", Office::replace_instance),
            60..=62 => self.is_lied_to(at),
            63 => self.is_revoked(at),
            64 | 65 => self.office_is_set_back("accepts what waits", |office, chance| {
                office.accepts(chance, true);
            }),
            66..=68 => self.acts_at_the_office(),
            _ if self.chance.one_in(2) => self.forgets(at),
            _ => {
                // Mail that never arrives.
                if !self.mail.is_empty() {
                    let gone = self.chance.below(self.mail.len());
                    self.mail.remove(gone);
                }
            }
        }
    }

    fn tell(&mut self, at: usize, what: &str, change: impl FnOnce(&mut Device)) {
        self.told.push(format!("{at} {what}"));
        change(&mut self.devices[at]);
    }

    fn acts(&mut self, at: usize) {
        if !self.devices[at].books().contains(&JOB.into()) {
            return;
        }
        self.made += 1;
        let what = act(&mut self.devices[at], self.made, &mut self.chance);
        self.told.push(format!("{at} {what}"));
    }

    /// Hands the job over; sometimes only a part of it travels.
    fn sends(&mut self, at: usize) {
        let Some(mut bytes) = self.handed(at) else { return };
        let to = self.chance.below(self.devices.len());
        let part = self.chance.one_in(4);
        if part {
            bytes = self.part_of(at);
        }
        self.told.push(format!("{at} sends {} to {to}", if part { "a part" } else { "all" }));
        self.mail.push(Letter { to, bytes });
    }

    fn handed(&mut self, at: usize) -> Option<Vec<u8>> {
        let device = &mut self.devices[at];
        device.books().contains(&JOB.into()).then(|| device.hand_over().bytes)
    }

    /// What was just handed over, without a run of entries of one log behind one of its seals.
    fn part_of(&mut self, at: usize) -> Vec<u8> {
        let device = &self.devices[at];
        let books = books_of(&device.hand().record.view(), JOB, &[TESTER, OTHER_TESTER]).unwrap();
        let mut parts: BTreeMap<Book, Vec<Entry>> = books.into_iter().map(|it| (it, device.entries(it))).collect();
        parts.retain(|_, entries| !entries.is_empty());
        let entries = parts.get_mut(&Book::from(JOB)).unwrap();
        let seals: Vec<(LogId, Seq)> = entries
            .iter()
            .map(Entry::envelope)
            .filter(|it| it.kind == Kind::Seal.number())
            .map(|it| (it.log, it.seq))
            .collect();
        if seals.is_empty() {
            return write(None, JOB.into(), &parts).unwrap();
        }
        let (log, seal) = seals[self.chance.below(seals.len())];
        if device.hand().record.view().heads_of(log).unwrap().len() > 1 {
            // Of a fork the seal of the other branch could be what is left out: then it is refused, and rightly.
            return write(None, JOB.into(), &parts).unwrap();
        }
        let upto = seal.0 + self.chance.below(6) as u64;
        let last = entries.iter().map(Entry::envelope).filter(|it| it.log == log).map(|it| it.seq).max().unwrap();
        let gone = |seq: Seq| seq > seal && seq.0 <= upto && seq < last;
        entries.retain(|entry| entry.envelope().log != log || !gone(entry.envelope().seq));
        write(None, JOB.into(), &parts).unwrap()
    }

    /// One letter arrives, not in the order they were sent: once, twice, damaged, or stopped midway and tried again.
    fn delivers(&mut self) {
        if self.mail.is_empty() {
            return;
        }
        let letter = self.mail.swap_remove(self.chance.below(self.mail.len()));
        let Letter { to, bytes } = letter;
        match self.chance.below(8) {
            0 => self.arrives_damaged(to, &bytes),
            1 => self.arrives_and_is_stopped(to, &bytes),
            _ => {}
        }
        self.arrives(to, &bytes);
        if self.chance.one_in(4) {
            self.told.push("the same letter again".into());
            self.mail.push(Letter { to: self.chance.below(self.devices.len()), bytes });
        }
    }

    fn arrives(&mut self, to: usize, bytes: &[u8]) -> Joined {
        let bundle = Bundle::open(bytes).unwrap();
        let closely = self.chance.one_in(6);
        let record = &mut self.devices[to].hand_mut().record;
        let told = closely.then(|| look(record, &bundle, &mut on()).unwrap());
        let joined = take_in(record, &bundle, &mut on()).unwrap();
        let sum = joined.sum();
        self.told.push(format!("{to} receives {sum:?}"));
        assert!(sum.adds_up());
        for Brought { taken, .. } in &joined.books {
            let met = [
                (Met::Fork, !taken.forks.is_empty()),
                (Met::Gap, !taken.gaps.is_empty()),
                (Met::Vouched, taken.vouched > 0),
                (Met::Settled, !taken.to_settle.is_empty()),
                (Met::Closed, !taken.closed.is_empty()),
            ];
            self.met.extend(met.iter().filter(|(_, was)| *was).map(|(met, _)| *met));
        }
        if let Some(told) = told {
            assert_eq!(told, joined, "it comes out as told");
            let again = look(record, &bundle, &mut on()).unwrap().sum();
            assert_eq!((again.same, again.joined, again.to_settle), (again.came, 0, 0), "again nothing is new");
        }
        joined
    }

    fn arrives_damaged(&mut self, to: usize, bytes: &[u8]) {
        let mut damaged = bytes.to_vec();
        if self.chance.one_in(2) {
            damaged.truncate(self.chance.below(bytes.len()));
        } else {
            damaged[self.chance.below(bytes.len())] ^= 1 << self.chance.below(8);
        }
        let before = self.devices[to].hand().record.projection().unwrap();
        Bundle::open(&damaged).unwrap_err();
        self.told.push(format!("{to} refuses a damaged one"));
        self.met.insert(Met::Damaged);
        assert_eq!(self.devices[to].hand().record.projection().unwrap(), before);
    }

    fn arrives_and_is_stopped(&mut self, to: usize, bytes: &[u8]) {
        let bundle = Bundle::open(bytes).unwrap();
        let all: u64 = bundle.manifest().books.iter().map(|it| it.entries).sum();
        let at = 1 + self.chance.number() % (2 * all);
        let hand = self.devices[to].hand_mut();
        let before = wires(hand);
        let stopped: Result<Joined, TakeInError<NotABundle>> = take_in(&mut hand.record, &bundle, &mut |progress| {
            if progress.done >= at { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
        });
        assert!(matches!(stopped, Err(TakeInError::Stopped)));
        assert_eq!(wires(hand), before);
        self.told.push(format!("{to} stops receiving"));
        self.met.insert(Met::Stopped);
    }

    /// Something takes entries away from a device: those that are nowhere else now are lost, and may be.
    fn takes_away(&mut self, at: usize, change: impl FnOnce(&mut Device)) {
        self.acknowledge();
        let before = self.devices[at].all();
        change(&mut self.devices[at]);
        self.note_lost(&before);
    }

    fn syncs(&mut self, at: usize) {
        let alone = self.at_instances_alone();
        let Some(office) = &mut self.office else { return };
        if office.refuses(&self.devices[at]) {
            self.told.push(format!("{at} is refused by the hub"));
            return;
        }
        let told = match office.syncs(&mut self.devices[at], &mut self.chance, true) {
            Ok(Synced { sent, came }) => {
                self.met.insert(Met::Synced);
                format!("sent {sent}, {came:?}")
            }
            Err(NoAnswer::NotReached) => {
                self.met.insert(Met::BrokenOff);
                "not reached".into()
            }
            // What is told now builds on what was hidden: then all of it is asked for the next time.
            Err(error @ NoAnswer::NotTaken(_)) if office.hid => {
                self.met.insert(Met::LieSeen);
                error.to_string()
            }
            Err(other) => panic!("{other}"),
        };
        self.told.push(format!("{at} syncs: {told}"));
        self.note_lost(&alone);
    }

    /// What nobody has but the record of an instance, which may die.
    fn at_instances_alone(&mut self) -> BTreeSet<EntryRef> {
        let mut alone = self.office.as_mut().map(Office::at_instances_alone).unwrap_or_default();
        for entry in self.devices.iter().flat_map(Device::all) {
            alone.remove(&entry);
        }
        alone
    }

    /// Somebody in the place of the hub lies to a device: it loses nothing, and has nothing that nobody wrote.
    fn is_lied_to(&mut self, at: usize) {
        let (known, alone) = (self.everywhere(), self.at_instances_alone());
        let Some(office) = &mut self.office else { return };
        let device = &mut self.devices[at];
        if office.refuses(device) {
            return;
        }
        let before = device.all();
        let ids = |office: &Office| office.instances.iter().map(Device::id).collect::<BTreeSet<_>>();
        let mut writers = ids(office);
        let told = match office.lies(device, &mut self.chance) {
            Ok(Synced { sent, came }) => format!("sent {sent}, {came:?}"),
            Err(error @ (NoAnswer::NotReached | NoAnswer::NotTaken(_) | NoAnswer::NeverTheSame)) => {
                if !matches!(error, NoAnswer::NotReached) {
                    self.met.insert(Met::LieSeen);
                }
                error.to_string()
            }
            Err(other) => panic!("{other}"),
        };
        self.met.insert(Met::Lied);
        self.told.push(format!("{at} is lied to: {told}"));
        let after = device.all();
        assert!(before.is_subset(&after), "a lie takes nothing away");
        writers.extend(ids(office));
        writers.insert(device.id());
        let view = device.hand().record.view();
        for new in after.difference(&before) {
            // Whoever sends and whoever takes in seals what it wrote.
            let written_now = view.device_of(new.log).unwrap().is_some_and(|device| writers.contains(&device));
            assert!(written_now || known.contains(new), "nobody wrote {new:?}");
        }
        self.note_lost(&alone);
    }

    fn is_revoked(&mut self, at: usize) {
        let Some(office) = &mut self.office else { return };
        if self.devices.iter().filter(|device| !office.refuses(device)).count() > 1 {
            office.revoke(&self.devices[at]);
            self.met.insert(Met::Revoked);
            self.told.push(format!("{at} is revoked"));
        }
    }

    fn acts_at_the_office(&mut self) {
        let Some(office) = &mut self.office else { return };
        self.made += 1;
        let what = office.acts(self.minutes, self.made, &mut self.chance);
        self.told.push(format!("the office {}", what.unwrap_or("has nothing to do")));
    }

    fn office_is_set_back(&mut self, what: &str, change: impl FnOnce(&mut Office, &mut Chance)) {
        self.acknowledge();
        let Some(office) = &mut self.office else { return };
        let before = office.all();
        change(office, &mut self.chance);
        if office.all() != before {
            self.met.insert(Met::HubSetBack);
        }
        self.told.push(format!("the hub {what}"));
        self.note_lost(&before);
    }

    /// What of these is nowhere any more.
    fn note_lost(&mut self, before: &BTreeSet<EntryRef>) {
        if before.is_empty() {
            return;
        }
        let still = self.everywhere();
        self.lost.extend(before.difference(&still));
        if before.difference(&still).next().is_some() {
            self.met.insert(Met::Lost);
        }
    }

    fn everywhere(&mut self) -> BTreeSet<EntryRef> {
        let office = self.office.as_mut().map(Office::all).unwrap_or_default();
        self.devices.iter().flat_map(Device::all).chain(office).collect()
    }

    fn restores(&mut self, at: usize) {
        // Without the job nobody could hand over what they have of its testers: a bundle is a job's.
        if self.devices[at].books().contains(&JOB.into()) && !self.others_hold_the_job() {
            return;
        }
        self.told.push(format!("{at} is restored"));
        self.takes_away(at, |device| {
            device.restore();
        });
    }

    fn clones(&mut self, at: usize) {
        if self.devices.len() < MOST_DEVICES {
            let (seed, whole) = (self.chance.number(), self.chance.one_in(2));
            self.told.push(format!("{at} is {} as {}", if whole { "cloned" } else { "copied" }, self.devices.len()));
            if whole {
                self.met.insert(Met::Twin);
            }
            let clone = self.devices[at].cloned(seed, whole);
            self.devices.push(clone);
        }
    }

    /// A device is lost for good, with its backup; its person goes on with a new one.
    fn is_destroyed(&mut self, at: usize) {
        if !self.others_hold_the_job() {
            return;
        }
        self.told.push(format!("{at} is destroyed"));
        self.met.insert(Met::Destroyed);
        let new = Device::new(self.chance.number());
        self.takes_away(at, |device| *device = new);
    }

    fn others_hold_the_job(&self) -> bool {
        self.devices.iter().filter(|it| it.books().contains(&JOB.into())).count() > 1
    }

    fn forgets(&mut self, at: usize) {
        if !self.others_hold_the_job() {
            return;
        }
        self.told.push(format!("{at} removes the job"));
        self.takes_away(at, |device| device.hand_mut().record.forget(JOB.into()).unwrap());
    }

    /// Everybody is in step with the hub, until nobody has anything new; revoked devices give and get theirs by file.
    fn meet_at(&mut self, office: &mut Office) {
        office.is_honest_again();
        if self.devices.iter().all(|device| office.refuses(device)) {
            // They were copies of one another: the office gives out a new one.
            self.devices.push(Device::new(self.chance.number()));
        }
        let (revoked, others): (Vec<usize>, Vec<usize>) =
            (0..self.devices.len()).partition(|at| office.refuses(&self.devices[*at]));
        for at in &revoked {
            // Whoever removed the job hands nothing over, its testers neither, before it has the job again.
            if !self.devices[*at].books().contains(&JOB.into())
                && let Some(bytes) = self.handed(others[0])
            {
                self.arrives(*at, &bytes);
            }
            if let Some(bytes) = self.handed(*at) {
                self.arrives(others[0], &bytes);
            }
        }
        for round in 0.. {
            assert!(round < 6, "it comes to an end");
            for at in &others {
                let Synced { sent, came } = office.syncs(&mut self.devices[*at], &mut self.chance, false).unwrap();
                self.told.push(format!("{at} meets the hub: sent {sent}, {came:?}"));
            }
            if office.held.entries().next().is_some() {
                self.met.insert(Met::Held);
            }
            if office.accepts(&mut self.chance, false) {
                self.met.insert(Met::Accepted);
            }
            office.gather();
            if self.are_alike(office.instances.iter().chain(others.iter().map(|at| &self.devices[*at]))) {
                break;
            }
        }
        if let Some(bytes) = self.handed(others[0]) {
            for at in revoked {
                self.arrives(at, &bytes);
            }
        }
        assert!(self.are_alike(office.instances.iter().chain(&self.devices)), "revoked devices get it by file");
        if office.died > 0 {
            self.met.insert(Met::InstanceDied);
        }
    }

    fn are_alike<'d>(&self, devices: impl Iterator<Item = &'d Device>) -> bool {
        let heads = |device: &Device| {
            let view = device.hand().record.view();
            BOOKS.map(|book| view.heads(book).unwrap())
        };
        let mut all = devices.map(heads);
        let first = all.next();
        all.all(|one| Some(one) == first)
    }

    /// Everybody hands everything to the first, who hands it to everybody, until nobody has anything new.
    fn meet(&mut self) {
        self.acknowledge();
        if let Some(mut office) = self.office.take() {
            self.meet_at(&mut office);
            self.devices.append(&mut office.instances);
            return;
        }
        for round in 0.. {
            assert!(round < 6, "it comes to an end");
            for from in (1..self.devices.len()).chain([0]) {
                let Some(bytes) = self.handed(from) else { continue };
                let all = if from == 0 { 1..self.devices.len() } else { 0..1 };
                for to in all {
                    self.arrives(to, &bytes);
                }
            }
            if self.are_alike(self.devices.iter()) {
                return;
            }
        }
    }

    /// Entries vanish only where something takes them away: it is enough to count them before that.
    fn acknowledge(&mut self) {
        let all = self.everywhere();
        self.acknowledged.extend(all);
    }

    /// All replicas are equal byte for byte, to what they are made anew as too, and nothing is lost but what was.
    fn hold(&mut self) {
        let (entries, projection) =
            (wires(self.devices[0].hand()), self.devices[0].hand().record.projection().unwrap());
        for device in &self.devices {
            assert_eq!(wires(device.hand()), entries, "the same entries");
            assert_eq!(device.hand().record.projection().unwrap(), projection, "the same projection");
        }
        let judged = what_is_judged(self.devices[0].hand());
        for device in &self.devices {
            assert_eq!(what_is_judged(device.hand()), judged, "the same judgements");
        }
        let said = what_it_says(self.devices[0].hand());
        let last = self.devices.last_mut().unwrap();
        assert_eq!(what_it_says(last.hand()), said, "the same record");
        last.hand_mut().record.rebuild().unwrap();
        assert_eq!(last.hand().record.projection().unwrap(), projection, "made anew");
        let here = self.devices[0].all();
        let missing: Vec<_> = self.acknowledged.difference(&here).filter(|entry| !self.lost.contains(entry)).collect();
        assert!(missing.is_empty(), "acknowledged and gone: {missing:?}");
        let view = self.devices[0].hand().record.view();
        let places: BTreeSet<(LogId, Seq)> = self.lost.iter().map(|entry| (entry.log, entry.seq)).collect();
        for book in BOOKS {
            for (log, report) in view.check(book).unwrap() {
                assert_eq!(report.authentic, report.entries, "all are proven");
                for fault in report.faults {
                    match fault {
                        Fault::ClockBack(_) => {}
                        Fault::Fork { .. } => assert!(self.met.contains(&Met::Twin), "a place given twice"),
                        Fault::Gap { from } => assert!(places.contains(&(log, from)), "a gap where nothing was lost"),
                        Fault::BrokenLink(entry) => assert!(places.contains(&(log, Seq(entry.seq.0 - 1)))),
                        Fault::Altered { .. } | Fault::BadSeal(_) => panic!("{fault:?}"),
                    }
                }
            }
        }
    }

    pub(crate) fn entries(&self) -> usize {
        self.devices[0].all().len()
    }
}

/// All that judgement is made from: the job as a snapshot. Names that a device alone has for people decide nothing.
fn what_is_judged(hand: &Hand) -> Option<String> {
    let made = Made { at: moment(0), by: "the simulator".into() };
    let mut file = snapshot(&hand.record.view(), JOB, &[TESTER, OTHER_TESTER], made).ok()?;
    file.people.clear();
    file.to_settle.clear();
    Some(file.write().unwrap())
}

fn what_it_says(hand: &Hand) -> String {
    let view = hand.record.view();
    let testers: Vec<_> = [TESTER, OTHER_TESTER].map(|it| view.tester(it).unwrap()).into();
    let book = [JOB.into()];
    let signed: Vec<_> = view.sign_offs(JOB).unwrap();
    let signed: Vec<_> = signed
        .iter()
        .map(|one| {
            let covered = view.covered(&one.value.cut).unwrap();
            let mut covers: Vec<_> = covered.entries.iter().map(|entry| entry.reference()).collect();
            covers.sort_unstable();
            (one, covers, covered.missing, view.after(&one.value.cut, &book).unwrap())
        })
        .collect();
    format!(
        "{signed:?} {} {:?} {:?} {:?} {:?} {testers:?} {:?} {:?} {:?} {:?} {:?} {:?} {:?}",
        view.fingerprint(&book).unwrap(),
        view.jobs().unwrap(),
        view.boards(JOB).unwrap(),
        view.circuits(JOB).unwrap(),
        view.readings(JOB).unwrap(),
        view.to_settle(JOB.into()).unwrap(),
        view.testers_to_settle(&[TESTER, OTHER_TESTER].into()).unwrap(),
        view.devices(JOB).unwrap(),
        view.not_tested(JOB).unwrap(),
        view.open_requests(JOB).unwrap(),
        view.accepted(JOB).unwrap(),
        view.last_recorded(&BOOKS).unwrap(),
    )
}
