// The command line, read through CLI11: the one file that includes it.
#include "viewer/cli/commands.h"

#include "scene/recipe/guide.h"

#include <CLI/CLI.hpp>

#include <ostream>
#include <sstream>

namespace lugline::cli {

namespace {

constexpr const char* footer =
    "Exit status: 0 sound, 1 the unit or the build is not, 2 the command line is not.\n"
    "A second opinion only: the unit's service manual, local rules and a qualified person decide.";

/// A figure within limits. CLI11's own range lets "nan" pass, which is neither
/// below nor above anything.
CLI::Validator between(double low, double high) {
  return CLI::Validator(
      [low, high](std::string& text) {
        double value = 0;
        const bool read = CLI::detail::lexical_cast(text, value);
        std::ostringstream expected;
        expected << "expected a figure from " << low << " to " << high;
        return read && value >= low && value <= high ? std::string() : expected.str();
      },
      "");
}

/// What is given and empty is a slip of a script's, and not the same as not given.
const CLI::Validator not_empty(
    [](std::string& text) {
      return text.empty() ? std::string("is given and empty") : std::string();
    },
    "");

void add_check(CLI::App& app, CheckOptions& options) {
  CLI::App* command =
      app.add_subcommand("check", "Work the whole sequence and judge every seat, key and pack");
  command->add_option("UNIT", options.unit, "A unit's folder")->required();
  command->add_flag("--json", options.json, "Print one JSON document");
}

void add_drop(CLI::App& app, DropOptions& options) {
  CLI::App* command =
      app.add_subcommand("drop", "Lower one part: where does it come to rest, on what?");
  command->add_option("UNIT", options.unit, "A unit's folder")->required();
  command->add_option("--part", options.part, "Component id")->required()->check(not_empty);
  command->add_option("--before", options.before, "Into what is in before this step")
      ->check(not_empty);
  command->add_flag("--flip", options.flip, "The other way up than the sequence says");
  command->add_option("--turn", options.turn, "Turn angle, such as \"36 deg\"")->check(not_empty);
  command->add_option("--off", options.off,
                      "A free plate or shaft, turned until its teeth stand in the way");
  command
      ->add_option("--reading", options.reading,
                   "A measured stand-off to explain, such as \"1.65 mm\"")
      ->check(not_empty);
  command->add_flag("--json", options.json, "Print one JSON document");
}

void add_pack(CLI::App& app, PackOptions& options) {
  CLI::App* command =
      app.add_subcommand("pack", "The stack, line by line, and which selective parts to fit");
  command->add_option("UNIT", options.unit, "A unit's folder")->required();
  command->add_option("--pack", options.pack, "Pack id; all packs without it")->check(not_empty);
  command
      ->add_option("--measured", options.measured,
                   "CSV of measured thicknesses: id,thickness with its unit")
      ->check(not_empty);
  command
      ->add_option("--temperature", options.temperature,
                   "Clearances warm as well, such as \"90 degC\"")
      ->check(not_empty);
  command
      ->add_option(
          "--reading", options.readings,
          "A clearance read, to explain: \"feeler 0.90 mm\", \"dial air 1.90 mm\", \"depth "
          "23.40 mm\"; with --pack")
      ->check(not_empty);
  command->add_flag("--working", options.working, "Every calculation in full");
  command->add_flag("--inch", options.inch, "Print inches");
  command->add_flag("--json", options.json, "Print one JSON document");
}

void add_drive(CLI::App& app, DriveOptions& options) {
  CLI::App* command = app.add_subcommand(
      "drive", "What every range does, what its elements carry, and an air check of a piston");
  command->add_option("UNIT", options.unit, "A unit's folder")->required();
  command->add_option("--range", options.range, "Range id, with its working; all ranges without it")
      ->check(not_empty);
  command
      ->add_option("--input-torque", options.input_torque,
                   "In place of the ranges' own, such as \"300 N m\"; negative coasts")
      ->check(not_empty);
  command
      ->add_option("--line-pressure", options.line_pressure,
                   "In place of the ranges' own, such as \"0.8 MPa\"")
      ->check(not_empty);
  command
      ->add_option("--input-speed", options.input_speed,
                   "Counts the head of turning fluid, such as \"2000 rpm\"")
      ->check(not_empty);
  command->add_option("--without", options.without, "An element that does not hold")
      ->check(not_empty);
  command->add_option("--stuck", options.stuck, "An element that holds in every range")
      ->check(not_empty);
  command->add_option("--reversed", options.reversed, "A one-way clutch the wrong way round")
      ->check(not_empty);
  command->add_option("--air", options.air, "Check this element's piston with air")
      ->check(not_empty);
  command
      ->add_option("--pressure", options.pressure,
                   "Of that air; without it the unit's test pressure")
      ->check(not_empty);
  command->add_option("--held", options.held, "How long it held once shut off, such as \"12 s\"")
      ->check(not_empty);
  command
      ->add_option("--down-to", options.down_to,
                   "The pressure at the hold's end; without it the unit's floor")
      ->check(not_empty);
  command
      ->add_option("--symptom", options.symptoms,
                   "What a driver notices, to be explained, such as \"D third: slips\"")
      ->check(not_empty);
  command
      ->add_option("--reading", options.readings,
                   "A pressure read at an element, such as \"MC in D third 0.21 MPa\"")
      ->check(not_empty);
  command->add_flag("--faults", options.faults,
                    "Every likely fault, and what each range then does");
  command->add_flag("--losses", options.losses, "What the teeth lose");
  command->add_flag("--inch", options.inch, "Print inches, pounds and psi");
  command->add_flag("--json", options.json, "Print one JSON document");
}

void add_make(CLI::App& app, MakeOptions& options) {
  CLI::App* command = app.add_subcommand("make", "Make models from caliper figures");
  command->add_option("RECIPES", options.recipes, "recipes.toml")->required();
  command->add_option("-o,--output", options.folder, "Folder for the models")->required();
  command->add_flag("--json", options.json, "Print one JSON document");
}

void add_recipes(CLI::App& app) {
  app.add_subcommand("recipes", "List the recipes, and the figures that each takes");
}

/// "1366x768" in two.
void add_size(CLI::App& command, int& width, int& height) {
  const auto read = [&width, &height](const std::string& text) {
    const auto cross = text.find('x');
    const auto pixels = [&](const std::string& digits) {
      const bool plain = !digits.empty() && digits.size() <= 4 &&
                         digits.find_first_not_of("0123456789") == std::string::npos;
      return plain ? std::stoi(digits) : 0;
    };
    width = cross == std::string::npos ? 0 : pixels(text.substr(0, cross));
    height = cross == std::string::npos ? 0 : pixels(text.substr(cross + 1));
    if (width < 320 || height < 240 || width > 8192 || height > 8192) {
      throw CLI::ValidationError("--size", "expected WIDTHxHEIGHT, 320x240 to 8192x8192");
    }
  };
  command.add_option_function<std::string>("--size", read, "Size in pixels, such as 1366x768");
}

void add_draw(CLI::App& app, DrawOptions& options) {
  CLI::App* command = app.add_subcommand("draw", "Draw the picture that the window would show");
  command->add_option("UNIT", options.unit, "A unit's folder")->required();
  command->add_option("-o,--output", options.output, "PNG file")->required();
  command->add_option("--step", options.step, "Step id; the last step without it")
      ->check(not_empty);
  command->add_option("--moment", options.moment, "0 with the part in hand, 1 with it in")
      ->check(between(0, 1));
  command->add_option("--explode", options.explode, "0 together, 1 apart")->check(between(0, 1));
  add_size(*command, options.width, options.height);
  command->add_option("--scale", options.scale, "Scale of lines and words, 1 to 2.5")
      ->check(between(1, 2.5));
  command->add_flag("--picture-only", options.picture_only, "No words and no column");
  command->add_flag("--whole", options.no_cut, "Without the cut");
  command->add_flag("--print-look", options.print_look, "Plain lines on white");
  command->add_flag("--level", options.level,
                    "The axis across the picture; pulled apart, in rows that fill it");
  command->add_flag("--materials", options.materials, "Every part in its own materials");
  command->add_flag("--hidden", options.hidden,
                    "Edges of the part in hand dashed where others stand before it");
  CLI::Option* through = command->add_flag("--see-through", options.see_through,
                                           "Whatever hides the part in hand in outline");
  command->add_flag("--solid", options.solid, "Nothing in outline, however much it hides")
      ->excludes(through);
  command->add_flag("--inch", options.inch, "Inches first");
  command
      ->add_option("--figures", options.figures,
                   "A view of figures: pack:ID, play:ID, train:RANGE or air:ELEMENT")
      ->check(not_empty);
  command->add_option("--input", options.input,
                      "Gear train: torque at the input, such as \"200 N m\"; negative coasts");
  command->add_option("--pressure", options.pressure,
                      "Air check: pressure at the regulator, such as \"0.2 MPa\"");
  command->add_option("--held", options.held, "Air check: what the watch shows, such as \"4.2 s\"");
  command->add_flag("--working", options.working,
                    "Gear train: the working in place of the picture");
}

void add_span(CLI::App& command, std::string& from, std::string& to) {
  command.add_option("--from", from, "Step id to begin with; the first without it")
      ->check(not_empty);
  command.add_option("--to", to, "Step id to end with; the last without it")->check(not_empty);
}

void add_animate(CLI::App& app, AnimateOptions& options) {
  CLI::App* command =
      app.add_subcommand("animate", "Write the sequence as an animated model (glTF)");
  command->add_option("UNIT", options.unit, "A unit's folder")->required();
  command->add_option("-o,--output", options.output, "GLB file")->required()->check(not_empty);
  add_span(*command, options.from, options.to);
  command->add_option("--seconds", options.seconds, "Length of each step that moves something")
      ->check(between(0.1, 60));
}

void add_film(CLI::App& app, FilmOptions& options) {
  CLI::App* command = app.add_subcommand("film", "Film the sequence, or a span of it");
  command->add_option("UNIT", options.unit, "A unit's folder")->required();
  command
      ->add_option("-o,--output", options.output,
                   "An .mp4 or .webm file (needs ffmpeg), or a folder for numbered pictures")
      ->required()
      ->check(not_empty);
  add_span(*command, options.from, options.to);
  add_size(*command, options.width, options.height);
  command->add_option("--rate", options.rate, "Frames a second, 1 to 120")->check(between(1, 120));
  command->add_option("--scale", options.scale, "Scale of lines and words, 1 to 2.5")
      ->check(between(1, 2.5));
  command->add_option("--speed", options.speed, "2 is twice as fast, 0.5 half")
      ->check(between(0.1, 20));
  command->add_flag("--inch", options.inch, "Inches first");
}

void add_window(CLI::App& app, WindowCommand& options) {
  app.add_option("UNIT", options.unit, "A unit's folder: opens the window");
  app.add_option("--log", options.log, "The build's log, in place of the usual one");
  app.add_option("--pictures", options.pictures, "Folder that F12 saves pictures to");
  app.add_option("--tally", options.tally, "File told how many frames were drawn");
  app.add_option("--scale", options.scale, "Scale of everything, 1 to 2.5")->check(between(1, 2.5));
  add_size(app, options.width, options.height);
  app.add_flag("--no-motion", options.no_motion, "Parts go to their places at once");
}

} // namespace

int run(int argc, const char* const* argv, Streams streams) {
  CLI::App app("Lugline: how a planetary automatic transmission goes together, shown and checked");
  app.name("lugline");
  app.footer(footer);
  app.require_subcommand(0, 1);
  CheckOptions check_options;
  DropOptions drop_options;
  PackOptions pack_options;
  DriveOptions drive_options;
  MakeOptions make_options;
  DrawOptions draw_options;
  AnimateOptions animate_options;
  FilmOptions film_options;
  WindowCommand window_options;
  add_check(app, check_options);
  add_drop(app, drop_options);
  add_pack(app, pack_options);
  add_drive(app, drive_options);
  add_make(app, make_options);
  add_recipes(app);
  add_draw(app, draw_options);
  add_animate(app, animate_options);
  add_film(app, film_options);
  add_window(app, window_options);
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    const int status = app.exit(error, streams.out, streams.err);
    return status == 0 ? sound : bad_command;
  }
  if (app.got_subcommand("check")) {
    return check(check_options, streams);
  }
  if (app.got_subcommand("recipes")) {
    streams.out << recipe_guide_text();
    return sound;
  }
  if (app.got_subcommand("drop")) {
    return drop(drop_options, streams);
  }
  if (app.got_subcommand("pack")) {
    return pack(pack_options, streams);
  }
  if (app.got_subcommand("drive")) {
    return drive(drive_options, streams);
  }
  if (app.got_subcommand("make")) {
    return make(make_options, streams);
  }
  if (app.got_subcommand("draw")) {
    return draw(draw_options, streams);
  }
  if (app.got_subcommand("animate")) {
    return animate(animate_options, streams);
  }
  if (app.got_subcommand("film")) {
    return film(film_options, streams);
  }
  if (window_options.unit.empty()) {
    streams.err << "lugline: name a unit's folder, or a command; lugline --help lists them\n";
    return bad_command;
  }
  return window(window_options, streams);
}

} // namespace lugline::cli
