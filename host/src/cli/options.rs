//! Options that several commands take.

use crate::sheet::Assignment;
use clap::{Args, ValueEnum};
use std::path::PathBuf;
use thou_contract::System;

/// Rule packs beside those that count anyway.
#[derive(Debug, Clone, Args)]
pub(in crate::cli) struct PackFiles {
    /// Another rule pack to load, a .wasm file; may be given more than once
    #[arg(long = "pack", value_name = "FILE")]
    pub(in crate::cli) packs: Vec<PathBuf>,
}

/// Fields of the sheet otherwise than they stand there.
#[derive(Debug, Clone, Default, Args)]
pub(in crate::cli) struct WhatIf {
    /// What if a field stood otherwise, like --set rods.length="6.125 in"; the file stays as it is. May be given more than
    /// once; null takes a field out, and lists count from 0, as in readings.wall-thickness.at.1.0
    #[arg(long = "set", value_name = "FIELD=VALUE")]
    pub(in crate::cli) assignments: Vec<Assignment>,
}

/// The units to print in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum Units {
    /// Inches, thou, pounds
    In,
    /// Millimetres, micrometres, newtons
    Mm,
}

impl Units {
    pub(in crate::cli) fn system(self) -> System {
        match self {
            Self::In => System::Inch,
            Self::Mm => System::Metric,
        }
    }
}

/// What a page is written for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum Format {
    /// For people
    Text,
    /// For programs, as schemas/report.schema.json and schemas/log.schema.json have it
    Json,
}
