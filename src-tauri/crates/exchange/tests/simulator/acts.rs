//! What people do on a device: whatever a job, a board, a circuit or a tester has an entry for. The bench stands in the
//! tests of the record.

use crate::chance::Chance;
use crate::device::Device;
use crate::support::{
    BOARD, CIRCUIT, JOB, OTHER_PERSON, OTHER_TESTER, PERSON, TESTER, circuit, id, moment, pair, replacing, samples,
    sign_off, taken,
};
use provenohm_assess::circuit::Stage;
use provenohm_assess::ids::{CircuitId, NoteId, PersonId};
use provenohm_assess::limits::{SHIPPED_FILES, shipped};
use provenohm_assess::policy::Policies;
use provenohm_assess::reading::NotTestedReason;
use provenohm_logbook::entry::body::{
    Accepted, AcceptedOf, BoardPeople, CircuitLabel, CircuitPresent, Correction, DeviceKnown, Different, JobRules,
    NotTested, Note, Person, Request, SameCircuit, SamePerson, SameTester, TesterIdentity,
};
use provenohm_logbook::entry::{Body, Bytes, EntryRef, Fact, Kind, Noun, Object, ObjectId, Role};
use provenohm_logbook::view::{Question, ToSettle};

fn readings(device: &Device) -> Vec<EntryRef> {
    device.hand().record.view().readings(JOB).unwrap().iter().map(|one| one.taken.entry).collect()
}

fn any(of: &[EntryRef], chance: &mut Chance) -> Option<EntryRef> {
    of.get(chance.below(of.len())).copied()
}

/// One act; its name.
pub(crate) fn act(device: &mut Device, number: u128, chance: &mut Chance) -> &'static str {
    match chance.below(31) {
        0..=4 => {
            device.hand_mut().append(taken(number, 100 + u32::try_from(number % 50).unwrap()));
            "reads"
        }
        20 => {
            let on_record = device.hand().record.view().readings(JOB).unwrap();
            let standing = on_record.iter().filter(|one| one.is_live()).map(|one| one.taken.value.reading.id);
            let (readings, not_tested) = (standing.collect(), Vec::new());
            let (pair, stage, at) = (pair(), Stage::Before, moment(0));
            let asked = Request { job: JOB, pair, stage, readings, not_tested, person: PERSON, at };
            device.hand_mut().append(Fact::from(asked).because("looks odd"));
            "asks"
        }
        21 => {
            let on_record = device.hand().record.view().readings(JOB).unwrap();
            let standing = on_record.iter().filter(|one| one.is_live()).map(|one| one.taken.value.reading.id);
            // Knowing what stands there, or as if nothing did.
            let beside = if chance.one_in(2) { standing.collect() } else { Vec::new() };
            let reason = if chance.one_in(2) { NotTestedReason::NoAccess } else { NotTestedReason::Live };
            let (pair, stage, person) = (pair(), Stage::Before, device.hand().person);
            let at = moment(i64::try_from(number).unwrap());
            let said = NotTested { job: JOB, pair, stage, reason, words: None, person, at, beside };
            device.hand_mut().append(Body::from(said));
            "says that a pair was not tested"
        }
        22 => {
            let on_record = device.hand().record.view().readings(JOB).unwrap();
            if let Some(one) = on_record.get(chance.below(on_record.len())) {
                let of = AcceptedOf::Reading { reading: one.taken.value.reading.id };
                let codes = vec!["below".to_owned()];
                let accepted = Accepted { job: JOB, of, codes, person: device.hand().person, at: moment(0) };
                device.hand_mut().append(Fact::from(accepted).because("an old heating cable"));
            }
            "accepts"
        }
        23 => {
            let people = vec![PERSON, OTHER_PERSON][..chance.below(3)].to_vec();
            let boards = device.hand().record.view().boards(JOB).unwrap();
            let current = boards.first().map(|one| one.people.current()).unwrap_or_default();
            device.hand_mut().append(Fact::naming(
                BoardPeople { job: JOB, board: BOARD, people },
                Role::Replaces,
                current,
            ));
            "says who does the board"
        }
        24 => {
            let devices = device.hand().record.view().devices(JOB).unwrap();
            if let Some(one) = devices.get(chance.below(devices.len())) {
                let known = DeviceKnown { job: JOB, device: one.device, key: one.key };
                device.hand_mut().append(Body::from(known));
            }
            "vouches for a device"
        }
        25 => {
            let same = SameTester { one: TESTER, other: OTHER_TESTER };
            device.hand_mut().write(|writer| writer.append_in(TESTER.into(), same)).unwrap();
            "says that two testers are one"
        }
        26..=29 => {
            let fact = stated(chance);
            let kind = fact.body.kind();
            let book = fact.body.book().unwrap();
            // Knowing what stands there, or as if nothing did.
            let known = device.entries(book).into_iter().filter(|it| it.envelope().kind == kind.number());
            let fact = match kind {
                Kind::Verification | Kind::LeadCheck | Kind::QuickCheck | Kind::Damage | Kind::RecallResolved => fact,
                _ if chance.one_in(3) => fact,
                _ => Fact::naming(fact.body, Role::Replaces, known.map(|it| it.reference())),
            };
            device.hand_mut().append(fact);
            "states something of the job, a board, a circuit or a tester"
        }
        30 => {
            let at = chance.below(SHIPPED_FILES.len());
            let (set, bytes) = (shipped().unwrap()[at].name.clone(), Bytes(SHIPPED_FILES[at].to_vec()));
            let current = device.hand().record.view().job(JOB).unwrap().rules.current();
            let rules = JobRules { job: JOB, set, bytes, policies: Policies::default() };
            device.hand_mut().append(Fact::naming(rules, Role::Replaces, current));
            "changes the rules"
        }
        5 | 6 => {
            if let Some(old) = any(&readings(device), chance) {
                device.hand_mut().append(replacing(number, 200, old));
            }
            "replaces"
        }
        7 => {
            let entries = device.entries(JOB.into());
            let can = entries.iter().filter(|it| Kind::from_number(it.envelope().kind).is_some_and(Kind::withdrawable));
            let all: Vec<EntryRef> = can.map(|entry| entry.reference()).collect();
            if let Some(entry) = any(&all, chance) {
                device.hand_mut().write(|writer| writer.withdraw(&[entry], "tried out")).unwrap();
            }
            "withdraws"
        }
        8 => {
            device.hand_mut().undo();
            "undoes"
        }
        9 => {
            let description = format!("Oven {}", chance.below(3));
            let label = CircuitLabel { job: JOB, circuit: CIRCUIT, reference: "1".into(), description };
            let circuits = device.hand().record.view().circuits(JOB).unwrap();
            let current = circuits.first().map(|one| one.label.current()).unwrap_or_default();
            device.hand_mut().append(Fact::naming(label, Role::Replaces, current));
            "labels"
        }
        10 => {
            let open = device.hand().record.view().to_settle(JOB.into()).unwrap();
            if let Some(question) = open.get(chance.below(open.len())) {
                settle(device, question, chance);
            }
            "settles"
        }
        11 => {
            let on_record = device.hand().record.view().readings(JOB).unwrap();
            if let Some(one) = on_record.get(chance.below(on_record.len())) {
                let correction = Correction {
                    job: JOB,
                    readings: vec![one.taken.value.reading.id],
                    tester: Some(if chance.one_in(2) { OTHER_TESTER } else { TESTER }),
                    test_voltage_v: None,
                    at: None,
                    conditions: None,
                };
                device.hand_mut().write(|writer| writer.correct(correction, "the other tester was used")).unwrap();
            }
            "corrects"
        }
        12 => {
            let of = Object { noun: Noun::Circuit, id: ObjectId(CIRCUIT.0) };
            let note = Note { note: NoteId(id(number)), of, text: "damp".into(), person: None, at: None };
            device.hand_mut().write(|writer| writer.append_in(JOB.into(), note)).unwrap();
            "notes"
        }
        13 => {
            let name = format!("Tester {}", chance.below(3));
            let tester = if chance.one_in(3) { OTHER_TESTER } else { TESTER };
            let it = TesterIdentity { tester, name, model: "M".into(), serial: "1".into(), invented: None };
            let current = device.hand().record.view().tester(tester).unwrap().identity.current();
            device.hand_mut().append(Fact::naming(it, Role::Replaces, current));
            "names the tester"
        }
        14 => {
            let hand = device.hand_mut();
            hand.person = if hand.person == PERSON { OTHER_PERSON } else { PERSON };
            let card = Person { person: hand.person, name: format!("Recorder {number}"), role: String::new() };
            hand.write(|writer| writer.change_person(&card)).unwrap();
            "is handed to the other, who renames themself"
        }
        15 => {
            let live = device.hand().record.view().sign_offs(JOB).unwrap().into_iter().find(|one| one.is_live());
            match live {
                Some(one) if chance.one_in(2) => {
                    device.hand_mut().write(|writer| writer.withdraw(&[one.entry], "signed too early")).unwrap();
                }
                _ => {
                    sign_off(device.hand_mut());
                }
            }
            "signs off"
        }
        16 | 17 => {
            let circuits = device.hand().record.view().circuits(JOB).unwrap();
            if let Some(one) = circuits.get(chance.below(circuits.len())) {
                present(device, one.circuit, !one.is_present(), one.present.current());
            }
            "removes or brings back a circuit"
        }
        18 => {
            let new = CircuitId(id(0x9_0000 + number));
            device.hand_mut().write(|writer| circuit(writer, new, "7")).unwrap();
            "adds a circuit"
        }
        _ if chance.one_in(3) => {
            let hand = device.hand_mut();
            let other = if hand.person == PERSON { OTHER_PERSON } else { PERSON };
            hand.write(|writer| writer.erase_person(other, "asked")).unwrap();
            // Known to the device again, so that a later act may be theirs.
            device.know_people();
            "erases the other"
        }
        _ => "waits",
    }
}

/// One of the samples that need nothing but the job and its tester.
fn stated(chance: &mut Chance) -> Fact {
    const NAMES: [&str; 16] = [
        "job names",
        "board names",
        "board order",
        "circuit order",
        "circuit electrical, all",
        "circuit electrical, least",
        "circuit place",
        "tester card",
        "tester card, with its interval",
        "verification",
        "verification, least",
        "lead check",
        "quick check",
        "quick check, with points",
        "damage",
        "recall resolved",
    ];
    let name = NAMES[chance.below(NAMES.len())];
    samples::all().into_iter().find(|(its, _)| *its == name).unwrap().1
}

fn settle(device: &mut Device, question: &ToSettle, chance: &mut Chance) {
    match question.question {
        Question::Alike { one, other } if chance.one_in(2) => {
            let different = Different { one, other };
            device.hand_mut().write(|writer| writer.append_in(JOB.into(), different)).unwrap();
        }
        Question::Alike { one, other } if one.noun == Noun::Person => {
            let [one, other] = [one, other].map(|it| PersonId(it.id.0));
            device.hand_mut().write(|writer| writer.append_in(JOB.into(), SamePerson { one, other })).unwrap();
        }
        Question::Alike { one, other } => {
            let [one, other] = [one, other].map(|it| CircuitId(it.id.0));
            device.hand_mut().append(Body::from(SameCircuit { job: JOB, one, other }));
        }
        Question::Removed { of } => {
            let circuits = device.hand().record.view().circuits(JOB).unwrap();
            let current = circuits.iter().find(|one| one.circuit.0 == of.id.0).map(|one| one.present.current());
            present(device, CircuitId(of.id.0), chance.one_in(2), current.unwrap_or_default());
        }
        _ => {
            let (keep, aside) = question.entries.split_first().unwrap();
            device.hand_mut().write(|writer| writer.settle(&[*keep], aside, None)).unwrap();
        }
    }
}

fn present(device: &mut Device, circuit: CircuitId, there: bool, current: Vec<EntryRef>) {
    let said = device.hand_mut().write(|writer| {
        let known = if there { Vec::new() } else { writer.known(JOB)? };
        let body = CircuitPresent { job: JOB, circuit, present: there, known };
        writer.append(Fact::naming(body, Role::Replaces, current))
    });
    said.unwrap();
}
