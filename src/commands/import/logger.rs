//! `benchwalk import --logger`: files of a climate logger, one climate entry a house and day.

use super::super::{CommandError, Context};
use super::table;
use crate::files::{FILE, shown};
use crate::journal::logger::{
    Column, Columns, DayHours, Decimal, HumidityColumn, LightColumn, LightUnit, Mapping, RawMapping, Separator,
    SourceName, TemperatureColumn, TemperatureUnit, TimeFormat, Zone,
};
use crate::session::Source;
use crate::session::logger::{How, import_logger};
use clap::Args;
use std::path::PathBuf;
use std::str::FromStr;

/// Options of `import` for files of climate loggers.
#[derive(Debug, Default, Args)]
#[command(next_help_heading = "Climate loggers (see `benchwalk help loggers`)")]
pub(super) struct LoggerArgs {
    /// The files are those of this climate logger, 1 to 8 characters: a `[[logger]]` of `config.toml`, or the options below.
    #[arg(long, value_name = "NAME", conflicts_with_all = ["plan", "template", "confirm"])]
    pub(super) logger: Option<String>,
    /// Print the mapping as TOML, and the days, and write nothing.
    #[arg(long, requires = "logger")]
    dry_run: bool,
    /// Void days that come out otherwise than they were written, and write them again.
    #[arg(long, requires = "logger")]
    replace: bool,
    /// The house where the logger hangs.
    #[arg(long, requires = "logger", value_name = "HOUSE", conflicts_with = "bench")]
    house: Option<String>,
    /// The bench where it hangs, instead of a house.
    #[arg(long, requires = "logger", value_name = "BENCH")]
    bench: Option<String>,
    /// The column of the time, or two such as `Date+Time`; a column is its header or its number.
    #[arg(long, requires = "logger", value_name = "COLUMN")]
    time: Option<String>,
    /// How times are written, such as `%m/%d/%Y %H:%M`.
    #[arg(long, requires = "logger", value_name = "FORMAT", value_parser = TimeFormat::from_str)]
    time_format: Option<TimeFormat>,
    /// Its clock: `site`, `-05:00` for one that is never put forward or back, `UTC`, or an IANA name.
    #[arg(long, requires = "logger", value_name = "ZONE", allow_hyphen_values = true, value_parser = Zone::from_str)]
    zone: Option<Zone>,
    /// The column of temperatures with its unit, such as `Temp=F`.
    #[arg(long, requires = "logger", value_name = "COLUMN=UNIT", value_parser = temperature)]
    temperature: Option<TemperatureColumn>,
    /// The column of humidity, percent.
    #[arg(long, requires = "logger", value_name = "COLUMN")]
    humidity: Option<String>,
    /// The column of light with its unit: umol, lux, klux, fc or W/m2.
    #[arg(long, requires = "logger", value_name = "COLUMN=UNIT", value_parser = light)]
    light: Option<(Column, LightUnit)>,
    /// Where the light comes from, with lux, klux and fc: sun, sky, sodium, metal-halide, cool-white, incandescent.
    #[arg(long, requires = "light", value_name = "SOURCE", value_parser = SourceName::from_str)]
    light_source: Option<SourceName>,
    /// The part of the light that the roof lets through, where the sensor hangs outside: 0.01 to 1.
    #[arg(long, requires = "light", value_name = "SHARE")]
    light_share: Option<f64>,
    /// A cell that holds no reading; may be given several times [default: empty, -, --, NaN].
    #[arg(long, requires = "logger", value_name = "TEXT", allow_hyphen_values = true)]
    missing: Vec<String>,
    /// The decimal sign, a point or a comma [default: .].
    #[arg(long, requires = "logger", value_name = "SIGN", value_parser = Decimal::from_str)]
    decimal: Option<Decimal>,
    /// What stands between cells: comma, semicolon or tab [default: as in the header].
    #[arg(long, requires = "logger", value_name = "SIGN", value_parser = Separator::from_str)]
    separator: Option<Separator>,
    /// How days are divided: `sun`, or hours such as 06:00-18:00 [default: sun].
    #[arg(long, requires = "logger", value_name = "DAY", value_parser = DayHours::from_str)]
    day: Option<DayHours>,
}

/// A column and its unit.
fn with_unit(text: &str) -> Result<(Column, &str), String> {
    let (column, unit) = text.rsplit_once('=').ok_or("give the column and its unit, such as 'Temp=F'")?;
    if column.trim().is_empty() { Err("the column is missing before =".to_owned()) } else { Ok((column.into(), unit)) }
}

fn temperature(text: &str) -> Result<TemperatureColumn, String> {
    let (column, unit) = with_unit(text)?;
    Ok(TemperatureColumn { column, unit: TemperatureUnit::from_str(unit)? })
}

fn light(text: &str) -> Result<(Column, LightUnit), String> {
    let (column, unit) = with_unit(text)?;
    Ok((column, LightUnit::from_str(unit)?))
}

impl LoggerArgs {
    /// The options as a part of a mapping.
    fn typed(&self) -> RawMapping {
        let light = self.light.clone().map(|(column, unit)| LightColumn {
            column,
            unit,
            source: self.light_source,
            share: self.light_share,
        });
        RawMapping {
            name: self.logger.clone(),
            house: self.house.clone(),
            bench: self.bench.clone(),
            time: self.time.as_ref().map(|time| Columns(time.split('+').map(Column::from).collect())),
            time_format: self.time_format.clone(),
            zone: self.zone,
            temperature: self.temperature.clone(),
            humidity: self.humidity.as_deref().map(|column| HumidityColumn { column: column.into() }),
            light,
            missing: (!self.missing.is_empty()).then(|| self.missing.clone()),
            decimal: self.decimal,
            separator: self.separator,
            day: self.day,
            folder: None,
        }
    }

    /// The mapping: the logger of the config file by that name, with what the options say in its place.
    fn mapping(&self, name: &str, known: &[Mapping]) -> Result<Mapping, CommandError> {
        let kept = known.iter().find(|mapping| mapping.name == name).cloned();
        let is_new = kept.is_none();
        let raw = kept.map(RawMapping::from).unwrap_or_default().with(self.typed());
        Mapping::try_from(raw).map_err(|reason| {
            let names = known.iter().map(|mapping| mapping.name.as_str()).collect::<Vec<_>>().join(", ");
            let known = match names.is_empty() {
                _ if !is_new => String::new(),
                true => " (config.toml has no logger)".to_owned(),
                false => format!(" (config.toml has {names})"),
            };
            CommandError::Typed { option: "--logger", reason: format!("{reason}{known}") }
        })
    }
}

/// Imports the files of a logger and prints its days.
pub(super) fn run(args: &LoggerArgs, files: &[PathBuf], context: &mut Context<'_>) -> Result<(), CommandError> {
    let name = args.logger.as_deref().unwrap_or_default();
    let mapping = args.mapping(name, &context.settings.loggers)?;
    if args.dry_run {
        write!(context.out, "{}", mapping.toml())?;
    }
    let limits = context.settings.limits()?;
    let sources = files.iter().map(|file| Source::file(file, FILE)).collect::<Result<Vec<_>, _>>()?;
    let whole = crate::progress::Work::whole();
    if !args.dry_run {
        super::keep_copy(context)?;
    }
    let how = How {
        mapping: &mapping,
        limits: &limits,
        replace: args.replace,
        dry: args.dry_run,
        at: context.written_at(),
        now: context.clock.now(),
        laptop: Some(&context.settings.sharer.laptop),
    };
    let imported = import_logger(&context.settings.season, &sources, &how)?;
    drop(whole);
    let system = context.day_reader().system;
    let text = table::text(&imported, &mapping, system, args.dry_run);
    write!(context.out, "{text}")?;
    if !args.dry_run {
        writeln!(context.out, "{}: {}", shown(&context.settings.season), table::counted(&imported, "written"))?;
    }
    Ok(())
}
