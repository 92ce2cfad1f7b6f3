//! Sentences for the views, made from judgements by the catalogue.

mod entry;
mod job_file;
mod own;
mod place;
mod reading;
mod review;
mod tester;

pub(crate) use entry::entry_kind;
pub(crate) use job_file::{not_a_card, not_a_job_file, not_that_json};
pub(crate) use own::{not_worked_out, own, own_resistance_words};
pub(crate) use place::{beside_conductors, circuit_name, electrical, named, pair_name, place, place_of_pair};
pub(crate) use reading::{judgement_line, not_chosen_why, sentences, withdrawn_why};
pub(crate) use review::{accepted, accepted_before, asked, asked_for, review_sum, said_by};
pub(crate) use tester::{
    about, card_lines, header, imagined, next_verification, smallest, tester_line, together, uncertainty_of,
};
