// The gear train: what every member turns at and every element carries, for any set of applied
// elements, decided exactly from the tooth counts.
//
// Each tooth mesh gives (w_a - w_c) Z_a = -/+ (w_b - w_c) Z_b (minus: external, plus: a ring), each
// closed element w_of = w_to; torques are the multipliers of the same equations (static balance).
// One-way clutches are settled by which way they are pushed: each holds (no turning, torque the way
// that it holds) or overruns (turning the way that it is free, no torque); every combination is
// tried, in whole-number fractions. Pinions are weightless, nothing is lost in the teeth unless the
// losses are asked for (losses.h).
//
// Speeds are shares of the input's speed, torques of the input's torque; positive is the way that
// the engine turns, so "clockwise as seen from the pump end" where Drive::engine_clockwise. Where
// nothing is driven, speeds are those with the driven end standing still and the driving one
// turning once (pull: input once, output still; coast: output once, input still). Plain values. A
// train that cannot be solved (a member that is not there, tooth counts of nothing) is answered
// with TrainState::refused and a sentence; nothing throws.
//
// Source of the equations: Willis' equation, as in any text on the theory of machines; R. L.
// Norton, Design of Machinery, chapter on gear trains (from memory).
#pragma once

#include "scene/drive/exact.h"
#include "scene/load/drive.h"
#include "scene/quantity/report.h"

#include <optional>
#include <string>
#include <vector>

namespace lugline {

enum class TrainDuty {
  pull, ///< the input drives, turning as the engine turns
  coast ///< the output drives, turning as it would be driven; the engine holds back
};

enum class TrainState {
  drives,   ///< pull: the output is driven; coast: the input is driven (the engine brakes)
  neutral,  ///< what drives turns freely while the driven end stands (coast: it overruns)
  locked,   ///< what drives cannot turn
  fighting, ///< it cannot, by two or more elements: without any one of them it would drive
  refused   ///< not worked out; the words say why
};
/// "drives", "neutral", "locked", "tied up", "not worked out".
std::string word_for(TrainState state);

struct MemberTurn {
  std::string id;
  std::string name;
  std::optional<ExactFigure> speed; ///< none: nothing holds it, it may turn at any speed
};

struct PinionTurn {
  std::string set;
  bool outer = false;                   ///< the outer of a double-pinion set
  std::optional<ExactFigure> speed;     ///< of its own body, as seen from outside
  std::optional<ExactFigure> about_pin; ///< less its carrier's
};

enum class ElementDoing {
  off,      ///< not applied
  on,       ///< applied: its two sides turn alike
  holds,    ///< a one-way clutch that is pushed the way it holds
  overruns, ///< a one-way clutch that turns the way it is free
  stands,   ///< a one-way clutch whose sides turn alike with no push on it
  free      ///< a one-way clutch with a side that nothing holds
};
/// "off", "on", "holds", "overruns", "stands", "free".
std::string word_for(ElementDoing doing);

struct ElementWork {
  std::string id;
  ElementDoing doing = ElementDoing::off;
  std::optional<ExactFigure> slip; ///< speed of `of` less that of `to`; none: undetermined
  /// By the element on `of`; none: several elements hold the same thing (shares_with), so that
  /// balance alone does not tell.
  std::optional<ExactFigure> torque;
  double most_torque = 0; ///< the most that it may have to carry, magnitude: |torque| where known
  std::vector<std::string> shares_with;
};

/// What a set puts on its members, as shares of the input torque. They sum to nothing.
struct SetTorques {
  std::string set;
  bool known = false; ///< false: several elements hold the same thing in it
  ExactFigure sun;    ///< on the sun's member, by the teeth
  ExactFigure ring;
  ExactFigure carrier;        ///< by the pins
  ExactFigure greatest_power; ///< the greatest of the three powers: above 1, power circulates
};

struct TrainAnswer {
  TrainState state = TrainState::refused;
  TrainDuty duty = TrainDuty::pull;
  std::string words;                ///< one plain sentence
  int degrees_of_freedom = 0;       ///< speeds that are yet to choose, of the train as it is held
  bool output_held = false;         ///< neutral, and the output is held still (parked)
  std::optional<ExactFigure> ratio; ///< input's turns for one of the output; negative: reverse
  /// By the load on the output, as a share of the input's: minus the ratio.
  std::optional<ExactFigure> output_torque;
  ExactFigure case_torque;      ///< by the case on the train: what makes the three sum to nothing
  bool torques_balance = false; ///< input, output and case sum to exactly nothing
  bool powers_balance = false;  ///< powers in and out sum to exactly nothing, each set's too
  std::vector<MemberTurn> members; ///< in the order of Drive::members
  std::vector<PinionTurn> pinions;
  std::vector<ElementWork> elements; ///< in the order of Drive::elements
  std::vector<SetTorques> sets;
  std::vector<std::string> blamed; ///< locked or fighting: dropping any one of these lets it drive

  [[nodiscard]] const MemberTurn* member(const std::string& id) const;
  [[nodiscard]] const ElementWork* element(const std::string& id) const;
};

/// What is applied, and which one-way clutches are not as they should be.
struct AppliedElements {
  std::vector<std::string> on;       ///< clutches and bands; a one-way clutch here is seized
  std::vector<std::string> reversed; ///< one-way clutches fitted the wrong way round
  std::vector<std::string> missing;  ///< one-way clutches that have fallen out
};

/// The applied elements of a range.
AppliedElements applied_in(const DriveRange& range);

TrainAnswer settle_train(const Drive& drive, const AppliedElements& applied, TrainDuty duty);

/// What is wrong with the train itself, each a plain sentence; empty: it can be solved.
std::vector<std::string> train_troubles(const Drive& drive);

/// "clockwise" or "counter-clockwise", as seen from the pump end, for a speed or a torque in the
/// engine's sense; "still" for nothing.
std::string turning_word(const Drive& drive, double in_engines_sense);

/// A range told in full: teeth, each set's equation with its figures, speeds, ratio, torques; what
/// it does pulling and what coasting. With `input_Nm` the torques are in N m.
CalculationReport report_range(const Drive& drive, const DriveRange& range,
                               std::optional<double> input_Nm = {});
/// The same for any applied elements; the title names them.
CalculationReport report_train(const Drive& drive, const AppliedElements& applied,
                               const std::string& title, std::optional<double> input_Nm = {});

/// Do the tooth counts go together: ring = sun + 2 pinions, equal spacing of the pinions.
CalculationReport report_set(const PlanetarySet& set);

} // namespace lugline
