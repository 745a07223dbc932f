// A unit: what it is made of, and how it goes together. Never changes once
// loaded; reloading makes a new one.
//
// Lengths are metres, angles radians, forces newtons, pressures pascals,
// torques newton metres. References between things are ids, checked by the
// loader: an id in a loaded Unit always names something in it.
#pragma once

#include "scene/load/drive.h"
#include "scene/load/source_place.h"
#include "scene/mesh/mesh.h"
#include "scene/part/component.h"

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace lugline {

/// Which way up a part goes. "turned over" is half a turn about the 12 o'clock axis.
enum class WayUp { right, turned_over };
/// "right way up", "turned over".
std::string word_for(WayUp way_up);
std::optional<WayUp> way_up_from(const std::string& word);
std::vector<std::string> way_up_words();

/// One line of unit.toml: a component, once for each piece of it.
struct UnitComponent {
  std::string id;    ///< of this piece: "CC-F2"
  std::string line;  ///< of the line it comes from: "CC-F"; the same as id where there is one piece
  std::string label; ///< short, for drawings: "friction 2"
  Component part;    ///< at the unit's own figures (a thickness in unit.toml is already in it)
  std::shared_ptr<const Mesh> mesh; ///< in the model's figures; shared by all pieces of a line
  std::vector<double> thickness_options_m; ///< selectives: what can be had, rising; else empty
  std::optional<double> model_thickness_m; ///< the figure that the mesh was drawn with
  SourcePlace source;
};

/// Limits of a figure.
struct Limits {
  double low_m = 0;
  double high_m = 0;
};

/// A clutch pack: what is stacked from the piston's face to the ring.
struct Pack {
  std::string id;
  std::string name;
  std::string piston;                 ///< component it stands on
  std::vector<std::string> plates;    ///< component ids, from the piston's end to the ring's
  std::string ring;                   ///< snap ring that closes it
  std::string ring_host;              ///< component with the groove
  std::string ring_groove;            ///< groove id in ring_host
  std::vector<std::string> selective; ///< component ids that may be chosen
  Limits clearance;
  bool wave_free = true;               ///< whether the limits are stated with the wave plate free
  std::optional<Limits> each_friction; ///< limits of the clearance for each friction, where stated
  double friction_least_m = 0;         ///< least thickness of a friction; 0: not stated
  double friction_wet_m = 0;           ///< by which a soaked one is thicker; 0: not stated
  SourcePlace source;
};

/// The least travel of something, found by moving it both ways over all paths.
struct Play {
  std::string id;
  std::string name;
  std::vector<std::string> moving; ///< components that move together
  std::string after_step;          ///< when it is measured
  Limits limits;
  SourcePlace source;
};

/// One length in a chain: a figure of a component, or one that is stated.
struct ChainLink {
  std::string
      name; ///< "carrier slot"; empty: the figure's name, or of a thickness the part's label
  std::string part;   ///< component id that has to be there; may be empty where a length is stated
  std::string figure; ///< of the part: "thickness"; empty where a length is stated
  std::optional<double> length_m; ///< stated, for what is part of one model or of none
};

/// A play or a travel that lies off the unit's axis, where nothing can be lowered: what is
/// left of a gap that members fill.
struct Chain {
  std::string id;
  std::string name;
  ChainLink gap;
  std::vector<ChainLink> members;
  std::vector<std::string> needs;     ///< component ids that bound the gap and fill none of it
  std::vector<std::string> selective; ///< component ids among the members that may be chosen
  Limits limits;                      ///< of what is left
  SourcePlace source;
};

/// A place where something is put together: a frame with its base part.
/// Its z is up, 0 at its base's datum face.
struct Place {
  std::string id; ///< "case", "drum bench"
  std::string name;
  std::string base; ///< component id
  SourcePlace source;
};

enum class StepKind {
  place,    ///< a part goes in
  spread,   ///< a band is sprung open and hung on its pins
  take_out, ///< a fitted part comes out
  refit,    ///< … and goes back
  attach,   ///< a tool is put on what is in hand
  detach,
  bring,     ///< a finished sub-build goes in as one
  turn_over, ///< the place's work is turned over
  press,     ///< pressed to a height, and held or let go
  grease,    ///< stuck on with grease, holds any way up
  soak,
  torque,
  measure,
  check,
  note
};
/// "place", "take out", "turn over", …
std::string word_for(StepKind kind);
std::optional<StepKind> step_kind_from(const std::string& word);
std::vector<std::string> step_kind_words();

/// How a check is made.
enum class CheckBy { gauge, hand, air, look };
std::string word_for(CheckBy by);
std::optional<CheckBy> check_by_from(const std::string& word);
std::vector<std::string> check_by_words();

/// What a joint lets a part do once it is in (DESIGN.md: joints are stated).
enum class JointKind { loose, fixed, turns, turns_one_way, slides, sprung, stuck, retained };
/// "loose", "turns one way", …
std::string word_for(JointKind kind);
std::optional<JointKind> joint_kind_from(const std::string& word);
std::vector<std::string> joint_kind_words();

struct Joint {
  JointKind kind = JointKind::loose;
  std::string to; ///< component it is joined to; empty: what it stands on
  /// turns_one_way: which way this part runs free, seen from `seen_from`, while `to` is held still.
  bool free_clockwise = false;
  std::string seen_from; ///< "pump end", "rear end": always named for a direction
};

/// What is read, and what it should read. `of` is one of
///   clearance:PACK            the pack's clearance, its ring pushed to its load side
///   play:PLAY                 that play
///   chain:CHAIN               what is left of that chain's gap
///   rest:COMPONENT            the height of its datum in the step's place
///   depth:COMPONENT@RADIUS    from the highest face of the place's base down to
///                             the component's highest face at that radius, as it
///                             lies (turned over or not): "depth:MC-DRUM@80 mm"
///   height:COMPONENT@RADIUS   the same upward, of what stands above the base
struct Reading {
  std::string of;
  double expect_m = 0;
  double low_m = 0;
  double high_m = 0;
  int places = 1;
};

struct CameraHint {
  double turn_rad = 0;   ///< where the eye stands about the axis, 0 = 12 o'clock side
  double rise_rad = 0.6; ///< above the horizon
  double closeness = 1;  ///< 1 frames the part and its seat; larger comes nearer
};

struct Step {
  std::string id;
  StepKind kind = StepKind::note;
  std::string place;   ///< Place::id
  std::string chapter; ///< short heading that groups steps on the rule
  std::string part;    ///< component id; for bring the base of the sub-build; else may be empty
  std::string brings;  ///< bring: Place::id of the sub-build
  std::vector<std::string> parts; ///< take_out, refit, attach …: further parts in order
  WayUp way_up = WayUp::right;
  double turn_rad = 0;    ///< the angle at which the part goes in
  std::string seat;       ///< component id on which it comes to rest
  std::string groove;     ///< snap ring: "COMPONENT/GROOVE" that it springs into
  std::string key;        ///< "COMPONENT/KEY" on the part, which enters Key::fits
  std::string band_state; ///< spread: which state of the band
  /// press: the height of the pressed part's datum; torque: the height that bolts draw it to.
  std::optional<double> press_to_m;
  /// place, refit: pushed in from the side until its datum is at this height, or, a closed
  /// ring, worked over an edge; it does not drop.
  std::optional<double> side_to_m;
  Joint joint;                      ///< how it is joined once in
  std::vector<std::string> lets_go; ///< components whose joint this step ends
  std::string do_text;              ///< one sentence: what to do now
  std::string know_text;            ///< one sentence: how you will know that it is right
  std::string caution_text;         ///< where somebody can be hurt; may be empty
  std::string wrong_way_text;       ///< what the wrong way up would do, in words; may be empty
  std::optional<CheckBy> by;        ///< check and measure
  /// check by air: the drive's elements whose pistons the air moves; may be empty.
  std::vector<std::string> elements;
  std::optional<Reading> reading;
  CameraHint camera;
  SourcePlace source;
};

struct Unit {
  std::string folder;
  std::string name;
  std::string label;  ///< "invented practice data", "your figures": on every picture and page
  std::string notice; ///< who decides: the unit's service manual; may be empty
  bool invented = false;
  std::vector<UnitComponent> components;
  std::vector<Pack> packs;
  std::vector<Play> plays;
  std::vector<Chain> chains;
  std::vector<Place> places;
  std::vector<Step> steps;
  std::optional<Drive> drive; ///< gear train and hydraulics, where unit.toml states them

  [[nodiscard]] const UnitComponent* component(const std::string& id) const;
  [[nodiscard]] const Pack* pack(const std::string& id) const;
  [[nodiscard]] const Chain* chain(const std::string& id) const;
  [[nodiscard]] const Place* place(const std::string& id) const;
  [[nodiscard]] const Step* step(const std::string& id) const;
  /// Index in steps, or steps.size().
  [[nodiscard]] std::size_t step_index(const std::string& id) const;
};

} // namespace lugline
