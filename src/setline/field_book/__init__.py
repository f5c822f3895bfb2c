"""The field book: what was written, by whom; append-only. A Job is a function of its entries."""
