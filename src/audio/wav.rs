//! How is a sound file written? By the same renderer, as a WAV file that is complete or does not exist.

use std::fs::{self, File};
use std::io::{self, BufWriter};
use std::ops::ControlFlow;
use std::path::{Path, PathBuf};

use hound::{SampleFormat, WavSpec, WavWriter};

use super::clip::Clip;
use super::desk::{self, CueEvent};
use counterpoise_core::units::{Frame, Frames, SampleRate};

/// Frames rendered at a time: a tenth of a second at 48 kHz.
const BLOCK: usize = 4_800;

/// The most frames that the 32-bit sizes of a WAV file allow, with room for its header.
const MOST: u64 = (u32::MAX as u64 - 1_024) / 2;

/// Why a file was not written.
#[derive(Debug, thiserror::Error)]
pub enum WavError {
    /// The file could not be made or written: no such folder, no permission, no room left.
    #[error("could not write {}: {source}", path.display())]
    Write {
        /// The file.
        path: PathBuf,
        /// The system's error.
        source: io::Error,
    },
    /// It would not fit into a WAV.
    #[error("{} frames do not fit into a WAV file; the most is {MOST}", .0.0)]
    TooLong(Frames),
    /// A sound would not be on its frame, or not whole: more than four at once, or one that ends after the end.
    #[error("the sound at frame {} does not fit there", .0.0)]
    Misplaced(Frame),
    /// `progress` broke off.
    #[error("{} was not written: writing was stopped", path.display())]
    Stopped {
        /// The file.
        path: PathBuf,
    },
}

/// Writes `total` frames of 16-bit mono to `path`, with the onset of each clip on its frame and silence between.
///
/// Everything is written to another file in the same folder, which replaces `path` at the end.
/// `progress` hears the share that is done, from 0 to 1, about a hundred times, and can break off.
///
/// # Errors
/// If the file cannot be written or a sound does not fit. The part that was written is removed.
pub fn render_wav(
    path: &Path,
    rate: SampleRate,
    total: Frames,
    plays: impl IntoIterator<Item = (Clip, Frame)>,
    progress: impl FnMut(f64) -> ControlFlow<()>,
) -> Result<(), WavError> {
    if total.0 > MOST {
        return Err(WavError::TooLong(total));
    }
    let fault = |source| WavError::Write { path: path.to_owned(), source };
    let name = path.file_name().ok_or_else(|| fault(io::ErrorKind::InvalidFilename.into()))?;
    let beside = path.with_file_name(format!(".{}.{}.part", name.to_string_lossy(), std::process::id()));
    let mut options = File::options();
    options.write(true).create_new(true);
    // Whoever else uses the computer need not know how somebody practices.
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    let file = options.open(&beside).map_err(fault)?;
    let written = write(file, path, rate, total, plays, progress)
        .and_then(|()| fs::rename(&beside, path).map_err(fault));
    if written.is_err() {
        // It may be that the disk itself is gone; the first fault is the one to tell.
        let _ = fs::remove_file(&beside);
    }
    written
}

fn write(
    file: File,
    path: &Path,
    rate: SampleRate,
    total: Frames,
    plays: impl IntoIterator<Item = (Clip, Frame)>,
    mut progress: impl FnMut(f64) -> ControlFlow<()>,
) -> Result<(), WavError> {
    let fault = |error| WavError::Write { path: path.to_owned(), source: plain(error) };
    let (mut desk, mut renderer) = desk::pair(rate);
    let mut unheard = Vec::new();
    for (id, (clip, at)) in (0..).zip(plays) {
        desk.play(id, clip, at);
        unheard.push(Some(at));
    }
    let spec = WavSpec {
        channels: 1,
        sample_rate: rate.hz(),
        bits_per_sample: 16,
        sample_format: SampleFormat::Int,
    };
    let mut writer = WavWriter::new(BufWriter::with_capacity(1 << 17, file), spec).map_err(fault)?;
    let (mut block, mut reported) = ([0; BLOCK], 0);
    while renderer.now().0 < total.0 {
        let frames = BLOCK.min((total.0 - renderer.now().0) as usize);
        renderer.render(&mut block[..frames]);
        while let Some(event) = desk.poll() {
            match event {
                CueEvent::Started { wanted, at, .. } if wanted != at => {
                    return Err(WavError::Misplaced(wanted));
                }
                CueEvent::Started { .. } => {}
                CueEvent::Finished { id } => unheard[id as usize] = None,
            }
        }
        let mut samples = writer.get_i16_writer(frames as u32);
        block[..frames].iter().for_each(|&sample| samples.write_sample(sample));
        samples.flush().map_err(fault)?;
        let done = renderer.now().0 * 100 / total.0;
        if done > reported {
            reported = done;
            if progress(done as f64 / 100.0).is_break() {
                return Err(WavError::Stopped { path: path.to_owned() });
            }
        }
    }
    if let Some(&at) = unheard.iter().flatten().next() {
        return Err(WavError::Misplaced(at));
    }
    writer.finalize().map_err(fault)
}

fn plain(error: hound::Error) -> io::Error {
    match error {
        hound::Error::IoError(error) => error,
        other => io::Error::other(other),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const CONTINUE: ControlFlow<()> = ControlFlow::Continue(());

    fn click(size: i16) -> Clip {
        Clip::new(vec![0, 0, size, -size, 7])
    }

    #[test]
    fn a_wav_written_and_read_back_is_the_same_samples() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("track.wav");
        fs::write(&path, "something older").unwrap();
        let plays = [(click(30_000), 900), (click(9_000), 901), (click(-500), 20_000)];
        let plays = plays.map(|(clip, at)| (clip, Frame(at)));
        let mut shares = Vec::new();
        let total = Frames(96_001);
        render_wav(&path, SampleRate::HZ_48000, total, plays.clone(), |share| {
            shares.push(share);
            CONTINUE
        })
        .unwrap();

        let (mut desk, mut renderer) = desk::pair(SampleRate::HZ_48000);
        (0..).zip(plays).for_each(|(id, (clip, at))| desk.play(id, clip, at));
        let mut cranked = vec![0; total.0 as usize];
        renderer.render(&mut cranked);
        let mut reader = hound::WavReader::open(&path).unwrap();
        assert_eq!(reader.spec().sample_rate, 48_000);
        let read: Vec<i16> = reader.samples().map(Result::unwrap).collect();
        assert!(read == cranked);
        assert_eq!(&read[898..904], &[0, 0, 30_000, -21_000, -8_993, 7], "onset on its frame, sounds added");
        assert_eq!(shares.last(), Some(&1.0));
        assert!(shares.is_sorted());
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1, "nothing is left beside it");
    }

    #[test]
    fn what_cannot_be_written_is_told_and_leaves_nothing() {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("file");
        fs::write(&file, "x").unwrap();
        let rate = SampleRate::HZ_48000;
        let under_a_file = render_wav(&file.join("a.wav"), rate, Frames(9), [], |_| CONTINUE);
        assert!(matches!(under_a_file, Err(WavError::Write { .. })), "{under_a_file:?}");
        let too_long = render_wav(&folder.path().join("a.wav"), rate, Frames(1 << 31), [], |_| CONTINUE);
        assert!(matches!(too_long, Err(WavError::TooLong(_))));
        let cut_off =
            render_wav(&folder.path().join("a.wav"), rate, Frames(7), [(click(99), Frame(5))], |_| CONTINUE);
        assert!(
            matches!(cut_off, Err(WavError::Misplaced(Frame(5)))),
            "it would end at frame 8 of 7: {cut_off:?}"
        );
        let too_early =
            render_wav(&folder.path().join("a.wav"), rate, Frames(99), [(click(99), Frame(1))], |_| CONTINUE);
        assert!(matches!(too_early, Err(WavError::Misplaced(Frame(1)))));
        let stop = |share| if share < 0.5 { CONTINUE } else { ControlFlow::Break(()) };
        let stopped = render_wav(&folder.path().join("a.wav"), rate, Frames(480_000), [], stop);
        assert!(matches!(stopped, Err(WavError::Stopped { .. })));
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
    }

    /// `/dev/full` is Linux's own test for programs that ignore a full disk.
    #[cfg(target_os = "linux")]
    #[test]
    fn a_full_disk_is_told() {
        let file = File::options().write(true).open("/dev/full").unwrap();
        let path = Path::new("/media/stick/track.wav");
        let result = write(file, path, SampleRate::HZ_48000, Frames(480_000), [], |_| CONTINUE);
        let Err(WavError::Write { source, .. }) = &result else { panic!("{result:?}") };
        assert_eq!(source.kind(), io::ErrorKind::StorageFull);
        assert!(
            result
                .unwrap_err()
                .to_string()
                .starts_with("could not write /media/stick/track.wav: No space left")
        );
    }
}
