//! What the whole product promises; the checks are in tests/.
