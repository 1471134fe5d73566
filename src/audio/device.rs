//! The sound card: which device is there, and how is its stream opened? One stream runs all the time, and the renderer
//! fills it. Only this file names `cpal`.

use std::str::FromStr;
use std::sync::Arc;
use std::sync::atomic::Ordering;
use std::sync::mpsc;
use std::time::Duration;
use std::{fmt, thread};

use cpal::traits::{DeviceTrait, HostTrait, StreamTrait};
use cpal::{
    BufferSize, Device, DeviceId, ErrorKind, FromSample, OutputCallbackInfo, SampleFormat, SizedSample,
    StreamConfig, SupportedStreamConfig,
};

use super::AudioError;
use super::anchor::{Anchor, real_time};
use super::desk;
use super::output::{self, Facts, Output};
use super::supervisor::{self, Backend, Cradle, Health};
use counterpoise_core::units::SampleRate;

/// Frames a callback: 43 ms. Through a Linux sound server, 48 kHz with a power of two of 1,024 or more keeps
/// clear of the endless underruns of smaller ones; a cue is placed by its frame, so a long block costs no exactness.
const BLOCK: u32 = 2048;

/// Times a busy device is tried when it is first opened, and how long to wait between.
const BUSY: (u32, Duration) = (5, Duration::from_millis(200));

/// A sound output that the system lists.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OutputDevice {
    /// The id for `--device`.
    pub id: String,
    /// The name for people.
    pub name: String,
}

/// Opens the device of this id, or the system's default one, and starts to play silence.
///
/// # Errors
/// If there is no such device, or it cannot be opened. No other device is tried: one that nobody chose may be a
/// silent one that runs through a set in a second.
pub fn open(id: Option<&str>) -> Result<Output, AudioError> {
    let (desk, renderer) = desk::pair(SampleRate::HZ_48000);
    let anchor = Anchor::new(real_time(SampleRate::HZ_48000));
    let unknown = Facts {
        host: String::new(),
        id: String::new(),
        device: String::new(),
        rate: SampleRate::HZ_48000,
        block: 0,
        lead: None,
        audible: true,
    };
    let (output, thread_side) = output::pair(desk, anchor, unknown);
    let (opened, first) = mpsc::channel();
    let card = Card { id: id.map(str::to_owned), retries: BUSY.0 };
    thread::Builder::new()
        .name("sound".to_owned())
        .spawn(move || {
            let _quiet = quiet();
            let cradle = Cradle::new(renderer, Arc::clone(&thread_side.anchor));
            supervisor::run(card, cradle, &thread_side, &opened);
        })
        .map_err(AudioError::Thread)?;
    first.recv().map_err(|_| AudioError::NoDevice {
        device: id.unwrap_or("the default device").to_owned(),
        why: "the sound system stopped answering".to_owned(),
    })??;
    Ok(output)
}

/// The outputs that the system lists. They are not opened, so a listed one may still not work.
///
/// # Errors
/// If the system has no sound system, or it cannot list anything.
pub fn list() -> Result<Vec<OutputDevice>, AudioError> {
    let _quiet = quiet();
    let devices = host()?.devices().map_err(|error| AudioError::NoHost { why: error.to_string() })?;
    let outputs = devices
        .filter_map(|device| Some(OutputDevice { id: device.id().ok()?.to_string(), name: name(&device) }));
    Ok(outputs.collect())
}

/// Until this is dropped, ALSA's own messages on this thread do not go to the screen.
#[cfg(target_os = "linux")]
fn quiet() -> impl Sized {
    alsa::Output::local_error_handler()
}

#[cfg(not(target_os = "linux"))]
fn quiet() -> impl Sized {}

/// The system's sound system. `cpal::default_host` would panic where it has none.
fn host() -> Result<cpal::Host, AudioError> {
    let mut why = "no sound system is known for this platform".to_owned();
    for id in cpal::available_hosts() {
        match cpal::host_from_id(id) {
            Ok(host) => return Ok(host),
            Err(error) => why = error.to_string(),
        }
    }
    Err(AudioError::NoHost { why })
}

fn name(device: &Device) -> String {
    device.description().map_or_else(|_| "unnamed".to_owned(), |description| description.name().to_owned())
}

/// The device that was asked for.
struct Card {
    id: Option<String>,
    /// Waits for a busy device, when it is first opened; later the supervisor comes again anyway.
    retries: u32,
}

impl Backend for Card {
    type Stream = cpal::Stream;

    fn open(&mut self, cradle: &mut Cradle) -> Result<(cpal::Stream, Facts), AudioError> {
        let mut tries = std::mem::take(&mut self.retries);
        loop {
            match self.open_once(cradle) {
                Err(AudioError::Busy { .. }) if tries > 1 => {
                    tries -= 1;
                    thread::sleep(BUSY.1);
                }
                result => return result,
            }
        }
    }
}

impl Card {
    fn open_once(&self, cradle: &mut Cradle) -> Result<(cpal::Stream, Facts), AudioError> {
        let (host, device) = self.find()?;
        // On ALSA the default device always exists, even without a card: only its configuration tells.
        let own = device.default_output_config().map_err(|error| self.fault(&error))?;
        let mut refused = None;
        for config in configs(&own) {
            let Some((mut loan, health)) = cradle.lend(rate_of(config)?) else {
                return Err(self.no_device("the last stream has not ended"));
            };
            let channels = usize::from(config.channels);
            let built = match own.sample_format() {
                SampleFormat::F32 => {
                    build::<f32>(&device, config, health, move |d, l| loan.fill(d, channels, l, from))
                }
                SampleFormat::I16 => {
                    build::<i16>(&device, config, health, move |d, l| loan.fill(d, channels, l, from))
                }
                SampleFormat::I32 => {
                    build::<i32>(&device, config, health, move |d, l| loan.fill(d, channels, l, from))
                }
                SampleFormat::U16 => {
                    build::<u16>(&device, config, health, move |d, l| loan.fill(d, channels, l, from))
                }
                SampleFormat::F64 => {
                    build::<f64>(&device, config, health, move |d, l| loan.fill(d, channels, l, from))
                }
                other => {
                    return Err(AudioError::Format { device: self.to_string(), format: other.to_string() });
                }
            };
            match built {
                Ok(stream) => {
                    let facts = Facts {
                        host: host.id().name().to_owned(),
                        id: device.id().map_or_else(|_| String::new(), |id| id.to_string()),
                        device: name(&device),
                        rate: rate_of(config)?,
                        block: 0,
                        lead: None,
                        audible: true,
                    };
                    return Ok((stream, facts));
                }
                Err(error) if error.kind() == ErrorKind::UnsupportedConfig => refused = Some(error),
                Err(error) => return Err(self.fault(&error)),
            }
        }
        Err(refused.map_or_else(|| self.no_device("it offers no format"), |error| self.fault(&error)))
    }

    fn find(&self) -> Result<(cpal::Host, Device), AudioError> {
        let Some(id) = &self.id else {
            let host = host()?;
            let device = host
                .default_output_device()
                .ok_or_else(|| self.no_device("the system has no default output"))?;
            return Ok((host, device));
        };
        let unknown = || AudioError::NoSuchDevice { id: id.clone() };
        let id = DeviceId::from_str(id).map_err(|_| unknown())?;
        let host = cpal::host_from_id(id.host()).map_err(|_| unknown())?;
        let device = host.device_by_id(&id).ok_or_else(unknown)?;
        Ok((host, device))
    }

    fn fault(&self, error: &cpal::Error) -> AudioError {
        match error.kind() {
            ErrorKind::DeviceBusy => AudioError::Busy { device: self.to_string() },
            _ => self.no_device(&error.to_string()),
        }
    }

    fn no_device(&self, why: &str) -> AudioError {
        // The system's messages are sentences; here they are part of one.
        AudioError::NoDevice { device: self.to_string(), why: why.trim_end_matches('.').to_owned() }
    }
}

impl fmt::Display for Card {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.id.as_deref().unwrap_or("the default device"))
    }
}

/// What to ask for, best first: 48 kHz, else the device's own rate; blocks of our length, else of its own.
fn configs(own: &SupportedStreamConfig) -> Vec<StreamConfig> {
    let mut rates = vec![SampleRate::HZ_48000.hz(), own.sample_rate()];
    rates.dedup();
    let config =
        |sample_rate, buffer_size| StreamConfig { channels: own.channels(), sample_rate, buffer_size };
    let both = |rate| [config(rate, BufferSize::Fixed(BLOCK)), config(rate, BufferSize::Default)];
    rates.into_iter().flat_map(both).collect()
}

fn rate_of(config: StreamConfig) -> Result<SampleRate, AudioError> {
    SampleRate::new(config.sample_rate)
        .ok_or_else(|| AudioError::Format { device: "the device".to_owned(), format: "0 Hz".to_owned() })
}

fn from<T: FromSample<i16>>(sample: i16) -> T {
    T::from_sample_(sample)
}

/// A stream that plays. The error callback may run on the audio thread, so it only counts.
fn build<T: SizedSample>(
    device: &Device,
    config: StreamConfig,
    health: Arc<Health>,
    mut fill: impl FnMut(&mut [T], Option<Duration>) + Send + 'static,
) -> Result<cpal::Stream, cpal::Error> {
    let data = move |data: &mut [T], info: &OutputCallbackInfo| {
        let times = info.timestamp();
        // Equal moments mean that the device does not know.
        fill(data, times.playback.checked_duration_since(times.callback).filter(|lead| !lead.is_zero()));
    };
    let error = move |error: cpal::Error| {
        let count = match error.kind() {
            ErrorKind::DeviceNotAvailable | ErrorKind::StreamInvalidated => {
                return health.gone.store(true, Ordering::Relaxed);
            }
            ErrorKind::Xrun => &health.xruns,
            ErrorKind::DeviceChanged => &health.changes,
            _ => &health.others,
        };
        count.fetch_add(1, Ordering::Relaxed);
    };
    let stream = device.build_output_stream(config, data, error, None)?;
    stream.play()?;
    Ok(stream)
}
