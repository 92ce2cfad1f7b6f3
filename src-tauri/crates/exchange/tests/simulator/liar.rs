//! A hub that lies: it claims to have what it has not, forgets what it was sent or has to give, and alters what it tells.

use crate::office::Over;
use crate::support::moment;
use provenohm_exchange::bundle::{Bundle, Head, write};
use provenohm_exchange::hub::{Cursor, Ends, Epoch, JobsThere, Lacks, Line, NoAnswer, Page, Pull, Tell, Want};
use provenohm_logbook::entry::body::Book;
use provenohm_logbook::entry::{Bytes, Entry, Hash, Kind, LogId, Seq};
use std::collections::BTreeMap;
use uuid::Uuid;

pub(crate) struct Liar<'o> {
    pub(crate) over: Over<'o>,
    /// Whether it hid something that nobody can see from what it says: devices find that out once they compare all they have.
    pub(crate) hid: bool,
}

impl Liar<'_> {
    fn below(&mut self, bound: usize) -> usize {
        self.over.chance.below(bound)
    }

    fn life(&mut self) -> Epoch {
        Epoch(Uuid::from_u128(0xbad_0000 + self.below(3) as u128))
    }

    /// What a page brings, without one of its entries or with one that nobody wrote in its place.
    fn altered(&mut self, bytes: &Bytes) -> Bytes {
        let bundle = Bundle::open(&bytes.0).unwrap();
        let of = |book| bundle.entries(book).unwrap().unwrap().map(Result::unwrap).collect();
        let mut books: BTreeMap<Book, Vec<Entry>> =
            bundle.manifest().books.iter().map(|packed| (packed.book, of(packed.book))).collect();
        let at = self.below(books.len());
        let entries = books.values_mut().nth(at).unwrap();
        let at = self.below(entries.len());
        let entry = entries.remove(at);
        let mut envelope = entry.envelope().clone();
        // Of a seal only what it seals is signed: one in another envelope is a fork in which nothing is said.
        let is_seal = envelope.kind == Kind::Seal.number();
        if let (Some((salt, body)), false) = (entry.body(), is_seal || self.below(2) == 0) {
            envelope.recorded = moment(7);
            entries.insert(at, Entry::new(envelope, *salt, body.to_vec()));
        }
        books.retain(|_, entries| !entries.is_empty());
        let first = books.keys().next().copied();
        first.map_or_else(|| bytes.clone(), |first| Bytes(write(None, first, &books).unwrap()))
    }
}

impl Line for Liar<'_> {
    fn tell(&mut self, tell: &Tell) -> Result<Lacks, NoAnswer> {
        let lacks = self.over.tell(tell)?;
        let of = |log: LogId, change: &dyn Fn(&Head) -> Head| {
            let heads = tell.heads.iter().filter(|head| head.log == log).map(change).collect();
            Ends { log, heads }
        };
        let mut told: Vec<LogId> = tell.heads.iter().map(|head| head.log).collect();
        told.dedup();
        let with = |change: &dyn Fn(&Head) -> Head| told.iter().map(|log| of(*log, change)).collect();
        let choice = self.below(10);
        // It claims to have what it has not.
        self.hid |= matches!(choice, 0 | 1);
        Ok(match choice {
            0 => Lacks { logs: Vec::new(), ..lacks },
            1 => Lacks { logs: with(&|head| *head), ..lacks },
            2 => Lacks { logs: told.iter().map(|log| Ends { log: *log, heads: Vec::new() }).collect(), ..lacks },
            3 => Lacks { logs: with(&|head| Head { hash: Hash([7; 32]), ..*head }), ..lacks },
            4 => Lacks { logs: with(&|head| Head { seq: Seq(head.seq.0 + 3), ..*head }), ..lacks },
            5 => Lacks { epoch: self.life(), ..lacks },
            _ => lacks,
        })
    }

    fn send(&mut self, piece: &BTreeMap<Book, Vec<Entry>>) -> Result<(), NoAnswer> {
        if self.below(3) == 0 {
            // It forgets.
            self.hid = true;
            return Ok(());
        }
        self.over.send(piece)
    }

    fn pull(&mut self, pull: &Pull) -> Result<Page, NoAnswer> {
        let page = self.over.pull(pull)?;
        let at = |change: &dyn Fn(Cursor) -> Cursor| {
            let moved = |want: &Want| Want { from: change(want.from), ..*want };
            page.upto.as_ref().map(|upto| upto.iter().map(moved).collect())
        };
        Ok(match self.below(12) {
            0 => Page { upto: at(&|from| Cursor { mark: [7; 32], ..from }), ..page },
            1 => Page { upto: at(&|from| Cursor { at: from.at + 5, ..from }), ..page },
            2 => Page { upto: at(&|_| Cursor::default()), ..page },
            3 => Page { epoch: self.life(), ..page },
            4 => Page { more: !page.more, ..page },
            5 => Page { upto: None, ..page },
            6 => {
                self.hid = true;
                Page { bundle: None, ..page }
            }
            7 | 8 => {
                self.hid = true;
                let bundle = page.bundle.as_ref().map(|bytes| self.altered(bytes));
                Page { bundle, ..page }
            }
            9 => {
                let mut bundle = page.bundle.clone();
                if let Some(Bytes(bytes)) = &mut bundle {
                    let at = self.below(bytes.len());
                    bytes[at] ^= 1 << self.below(8);
                }
                Page { bundle, ..page }
            }
            _ => page,
        })
    }

    fn jobs(&mut self) -> Result<JobsThere, NoAnswer> {
        self.over.jobs()
    }
}
