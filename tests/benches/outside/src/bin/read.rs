//! Reads a file and ends: what a process costs that does nothing else.

fn main() -> std::io::Result<()> {
    let path = std::env::args_os().nth(1).unwrap_or_default();
    std::hint::black_box(std::fs::read(path)?);
    Ok(())
}
