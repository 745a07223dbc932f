// The commands. Each prints for people, or with --json one JSON document on
// `out` and nothing else there; what goes wrong with the command itself goes
// to `err`. Returns the exit status: 0 sound, 1 the unit or the build is not,
// 2 the command line is not.
#pragma once

#include <iosfwd>
#include <optional>
#include <string>
#include <vector>

namespace lugline::cli {

enum Status { sound = 0, not_sound = 1, bad_command = 2 };

struct Streams {
  std::ostream& out;
  std::ostream& err;
};

struct CheckOptions {
  std::string unit;
  bool json = false;
};
int check(const CheckOptions& options, Streams streams);

struct DropOptions {
  std::string unit;
  std::string part;
  std::string before; ///< step id; empty: the step that puts the part in
  bool flip = false;
  std::string turn; ///< "36 deg"; empty: the step's own
  std::vector<std::string> off;
  std::string reading; ///< a measured stand-off to be explained: "1.65 mm"
  bool json = false;
};
int drop(const DropOptions& options, Streams streams);

struct PackOptions {
  std::string unit;
  std::string pack;                  ///< empty: all
  std::string measured;              ///< CSV file
  std::string temperature;           ///< "90 degC"; empty: not asked
  std::vector<std::string> readings; ///< "feeler 0.90 mm"; of the one pack that is named
  bool working = false;              ///< every report in full
  bool inch = false;
  bool json = false;
};
int pack(const PackOptions& options, Streams streams);

struct DriveOptions {
  std::string unit;
  std::string range;         ///< empty: all
  std::string input_torque;  ///< "300 N m" in place of the ranges' own; negative coasts
  std::string line_pressure; ///< "0.8 MPa" likewise
  std::string input_speed;   ///< "2000 rpm": the head of turning fluid is counted
  std::vector<std::string> without;
  std::vector<std::string> stuck;
  std::vector<std::string> reversed;
  std::string air;                   ///< element whose piston is checked with air
  std::string pressure;              ///< of that air; empty: the unit's test pressure
  std::string held;                  ///< how long it held once shut off
  std::string down_to;               ///< … and the pressure then; empty: the unit's floor
  std::vector<std::string> symptoms; ///< "D third: slips": explained, in place of the ranges
  std::vector<std::string> readings; ///< "MC 0.21 MPa", "MC in D third 0.21 MPa"
  bool faults = false;               ///< the table of fault against symptom, in place of the ranges
  bool losses = false;
  bool inch = false;
  bool json = false;
};
int drive(const DriveOptions& options, Streams streams);

struct MakeOptions {
  std::string recipes;
  std::string folder;
  bool json = false;
};
int make(const MakeOptions& options, Streams streams);

struct DrawOptions {
  std::string unit;
  std::string output;
  std::string step;  ///< empty: the last
  double moment = 0; ///< 0 in hand, 1 in
  double explode = 0;
  int width = 1366;
  int height = 768;
  double scale = 0;          ///< of lines and words, 1 to 2.5; 0: as the size asks
  bool picture_only = false; ///< no words, no column
  bool no_cut = false;
  bool print_look = false;
  bool level = false;       ///< the axis across the picture; pulled apart, in rows
  bool materials = false;   ///< every part in its own materials
  bool hidden = false;      ///< edges of the part in hand dashed where others stand before it
  bool see_through = false; ///< whatever hides the part in hand in outline
  bool solid = false;       ///< … never, however much it hides
  bool inch = false;
  std::string figures;  ///< "pack:CC", "train:D second", "air": a view of figures in place of it
  std::string input;    ///< gear train: torque at the input, "200 N m"; negative: coasting
  std::string pressure; ///< air check: "0.2 MPa"
  std::string held;     ///< air check: what the watch shows, "4.2 s"
  bool working = false; ///< gear train: the working in place of the picture
};
int draw(const DrawOptions& options, Streams streams);

struct AnimateOptions {
  std::string unit;
  std::string output;
  std::string from;   ///< step id; empty: the first
  std::string to;     ///< step id; empty: the last
  double seconds = 0; ///< of each step that moves something; 0: its natural length
};
int animate(const AnimateOptions& options, Streams streams);

struct FilmOptions {
  std::string unit;
  std::string output; ///< .mp4, .webm, or a folder for numbered pictures
  std::string from;   ///< step id; empty: the first
  std::string to;     ///< step id; empty: the last
  int width = 1280;
  int height = 720;
  int rate = 30;    ///< frames a second
  double scale = 0; ///< as draw's
  double speed = 1; ///< 2: twice as fast
  bool inch = false;
};
int film(const FilmOptions& options, Streams streams);

struct WindowCommand {
  std::string unit;
  std::string log;
  std::string pictures; ///< folder for F12
  std::string tally;    ///< file told how many frames were drawn
  bool no_motion = false;
  double scale = 0; ///< 1 to 2.5; 0: as last time
  int width = 0;    ///< of the window at first; 0: the usual
  int height = 0;
};
int window(const WindowCommand& options, Streams streams);

/// Reads the command line and does what it says.
int run(int argc, const char* const* argv, Streams streams);

} // namespace lugline::cli
