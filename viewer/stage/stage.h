// The stage: state and answers in, a plain list of what to draw and what to
// say out. The one doorway to the picture, for the window and for files alike.
//
// No OpenGL, no Dear ImGui. Answers are computed when the state changes and
// kept here with the readings that they were computed for; drawing computes
// nothing. Lengths metres, angles radians, seconds.
#pragma once

#include "scene/build/judge.h"
#include "scene/build/log.h"
#include "scene/build/simulate.h"
#include "scene/build/timeline.h"
#include "scene/load/unit.h"
#include "scene/quantity/quantity.h"
#include "viewer/stage/figures_choice.h"
#include "viewer/stage/picture.h"
#include "viewer/stage/see_through.h"

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace lugline {

/// How a person likes to see things. Kept between sittings.
struct Settings {
  LengthUnit unit = LengthUnit::millimetre;
  double scale = 1.0; ///< of everything, 1.0 to 2.5
  bool motion = true;
  bool cut = true;
  bool print_look = false;
  bool axis_level = false;    ///< the axis lies across the picture, as in a book
  bool own_materials = false; ///< what is in shows its materials, for a picture of the whole
  bool hidden_edges = false;  ///< of the part in hand, dashed where others stand before it
  SeeThrough see_through = SeeThrough::automatic;
};

/// The user's own view on top of the step's camera.
struct OwnView {
  double turn_rad = 0;
  double rise_rad = 0;
  double zoom = 1;
  double pan_x_m = 0;
  double pan_y_m = 0;
  friend bool operator==(const OwnView&, const OwnView&) = default;
};

/// What a person does with the part in hand.
struct HandState {
  double turn_rad = 0; ///< turned by so much from its key
  bool over = false;   ///< turned over against the way it should go
  bool let_go = false; ///< let go as it is, and lying where the drop says
  double fall = 1;     ///< let_go: how much of the fall is done, 0 to 1
};

/// Everything that the window shows, in one value.
struct ViewState {
  std::size_t step = 0;
  double moment = 0; ///< 0 in hand, 1 in
  HandState hand;
  double explode = 0; ///< 0 together, 1 apart
  OwnView view;
  Settings settings;
  FiguresChoice figures;
  std::vector<std::string> seen_through; ///< what the picture before this one showed as outlines
};

/// What is said about the step, worded; panels only lay it out.
struct Words {
  std::string chapter;
  std::string place;       ///< "on the drum bench"
  std::string count;       ///< "step 12 of 58"
  std::string to_do;       ///< one sentence
  std::string know;        ///< one sentence; may be empty
  std::string caution;     ///< may be empty
  std::string manual;      ///< beside a caution: who decides
  std::string stands;      ///< where the part stands, in words: "Now standing on friction 1"
  std::string stands_more; ///< "1.70 mm above home · 3 of 4 picked up"
  bool stands_wrong = false;
  std::string wrong_way; ///< what the other way up would do: "0.30 mm, too tight"
  std::string reading;   ///< measure: what it reads, and its limits; by air: what the pistons do
  std::string label;     ///< invented practice data, or your figures; the manual decides
  std::vector<std::string> problems; ///< why the step does not hold
};

/// A tick of the rule at the foot.
struct RuleTick {
  std::size_t step = 0;
  bool chapter_starts = false;
  std::string chapter; ///< where one starts
  bool fails = false;
};

/// A part that waits: drawn at its true relative size, counted in words.
struct Waiting {
  std::string line;  ///< line of unit.toml
  std::string words; ///< "steel, three"
  double outer_m = 0;
  double height_m = 0;
  std::string material;
  bool next = false; ///< the part in hand is one of them
};

/// One plate in the gap column.
struct ColumnPlate {
  std::string id;
  std::string label;
  double low_m = 0; ///< heights in the place's frame
  double high_m = 0;
  double thick_m = 0; ///< what it counts
  std::string material;
  bool wave = false;
  bool dished = false; ///< a wave plate without waves
  bool measured = false;
  bool landing = false; ///< the step's own part
};

/// The pack that the step is about, for the gap column.
struct Column {
  std::string id;
  std::string name;
  std::vector<ColumnPlate> plates;
  double floor_m = 0;    ///< piston's face
  double ring_low_m = 0; ///< the ring's face, ring loaded
  double ring_high_m = 0;
  bool ring_in = false;
  double clearance_m = 0;
  double flat_m = 0;      ///< with the wave plate flat
  std::string wave_label; ///< what that plate is called here
  bool has_wave = false;
  double low_m = 0;
  double high_m = 0;
  PackVerdict verdict = PackVerdict::open;
  std::size_t in = 0; ///< plates in so far
  std::size_t of = 0;
  std::string number; ///< "0.90"
  std::string number_unit;
  std::string other_unit; ///< "0.035 in"
  std::string verdict_words;
  std::string limits_words; ///< "limits 0.75 to 1.25 mm"
};

class Stage {
public:
  explicit Stage(std::shared_ptr<const Unit> unit);
  ~Stage();
  Stage(Stage&&) noexcept;
  Stage& operator=(Stage&&) noexcept;

  /// Works everything out again for these readings.
  void set_readings(const Readings& readings);

  [[nodiscard]] const Unit& unit() const;
  [[nodiscard]] const Simulation& simulation() const;
  [[nodiscard]] Workshop& workshop() const;
  [[nodiscard]] const CheckReport& check() const;
  [[nodiscard]] std::size_t step_count() const;
  [[nodiscard]] double seconds(std::size_t step) const; ///< natural length of its motion

  /// aspect: width by height of the part of the window that is free for it.
  [[nodiscard]] Picture picture(const ViewState& view, double aspect) const;
  [[nodiscard]] Words words(const ViewState& view) const;
  [[nodiscard]] std::optional<Column> column(const ViewState& view) const;
  /// A pack as it is when it was last whole; none where it never is.
  [[nodiscard]] std::optional<Column> whole_column(const std::string& pack, LengthUnit unit) const;
  [[nodiscard]] std::vector<RuleTick> rule() const;
  [[nodiscard]] std::vector<Waiting> waiting(const ViewState& view) const;
  /// Where the part in hand would come to rest as it is held now.
  [[nodiscard]] std::optional<Lowered> held_drop(const ViewState& view) const;

private:
  struct Answers;
  std::unique_ptr<Answers> answers_;
};

} // namespace lugline
