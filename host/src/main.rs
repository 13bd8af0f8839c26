//! The program; everything it does is in the library.

fn main() -> std::process::ExitCode {
    std::process::ExitCode::from(thou::cli::run().0)
}
