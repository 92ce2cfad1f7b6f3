//! Complaints about a form: the operation refuses with the failure code `form` and one complaint a field.

told! {
    /// What is wrong with one field.
    #[derive(schemars::JsonSchema)]
    pub struct Complaint {
        /// The field, for example `nominal` or `voltages.0.ranges.1.to`.
        pub field: String,
        /// What is wrong and what to do.
        pub words: String,
    }

    /// What is wrong with one line of a pasted or imported table.
    pub struct LineComplaint {
        /// Line, from 1.
        pub line: u32,
        /// What is wrong and what to do.
        pub words: String,
    }
}
