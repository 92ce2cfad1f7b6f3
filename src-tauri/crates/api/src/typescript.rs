//! Writes the operations and their types as one TypeScript file.

use crate::{Failure, operations};
use std::any::TypeId;
use std::collections::{BTreeMap, HashSet};
use std::fmt::Write as _;
use ts_rs::{Config, TS, TypeVisitor};

/// Gathers every type that operations ask for and tell, once each.
pub(crate) struct Collector {
    config: Config,
    seen: HashSet<TypeId>,
    types: BTreeMap<String, String>,
    operations: String,
}

impl Collector {
    fn new() -> Self {
        Self {
            config: Config::new().with_large_int("number"),
            seen: HashSet::new(),
            types: BTreeMap::new(),
            operations: String::new(),
        }
    }

    /// Takes one operation with its types.
    pub(crate) fn operation<Asked: TS + 'static, Told: TS + 'static>(&mut self, name: &str, doc: &[&str]) {
        self.visit::<Asked>();
        self.visit::<Told>();
        let (asked, told) = (Asked::name(&self.config), Told::name(&self.config));
        let doc = doc.concat();
        let _infallible = writeln!(self.operations, "  /**{doc} */\n  {name}: {{ input: {asked}; output: {told} }};");
    }
}

impl TypeVisitor for Collector {
    fn visit<T: TS + 'static + ?Sized>(&mut self) {
        if !self.seen.insert(TypeId::of::<T>()) {
            return;
        }
        if T::output_path().is_some() {
            let declared = format!("export {}\n", T::decl(&self.config));
            self.types.insert(T::ident(&self.config), declared);
        }
        T::visit_generics(self);
        T::visit_dependencies(self);
    }
}

/// The whole file: the types by name, then the map from an operation's name to its input and output.
#[must_use]
pub fn typescript() -> String {
    let mut collector = Collector::new();
    collector.visit::<Failure>();
    operations::describe(&mut collector);
    let types: String = collector.types.into_values().collect::<Vec<_>>().join("\n");
    format!(
        "// Generated from the operations by `cargo run -p provenohm-api --example types`. Change them there.\n\n\
         {types}\n/** Every operation with what it asks and what it tells. */\nexport interface Operations {{\n{}}}\n",
        collector.operations
    )
}
