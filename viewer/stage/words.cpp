// What is said about a step. Sentences are made here and nowhere else.
#include "viewer/stage/answers.h"

#include "scene/quantity/quantity.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace lugline {

namespace {

constexpr double told_m = 1e-6;

class Wording {
public:
  Wording(const Unit& unit, Workshop& workshop, const Simulation& simulation, const ViewState& view,
          const std::optional<Lowered>& dropped)
      : unit_(unit), workshop_(workshop), simulation_(simulation), view_(view),
        step_(unit.steps[view.step]), outcome_(simulation.outcomes[view.step]), dropped_(dropped) {}

  Words words() {
    Words words;
    words.chapter = step_.chapter;
    words.place = staged::place_of_step_name(unit_, step_);
    words.count =
        "step " + std::to_string(view_.step + 1) + " of " + std::to_string(unit_.steps.size());
    words.to_do = step_.do_text;
    words.know = step_.know_text;
    words.caution = step_.caution_text;
    if (!words.caution.empty()) {
      words.manual = "The unit's service manual, local rules and a qualified person decide.";
    }
    words.label = unit_.label + (unit_.invented ? ": for a real unit its service manual decides"
                                                : ": the unit's service manual decides");
    words.problems = outcome_.problems;
    words.wrong_way = wrong_way();
    words.reading = reading();
    where_it_stands(words);
    return words;
  }

private:
  [[nodiscard]] std::string length(double length_m) const {
    return print_length(length_m, view_.settings.unit);
  }

  void where_it_stands(Words& words) const {
    if (view_.moment >= 1) {
      seated_words(words);
      return;
    }
    if (!dropped_) {
      return;
    }
    if (!dropped_->rest_m) {
      words.stands = "Nothing stops it";
      words.stands_wrong = true;
      return;
    }
    words.stands = "Now standing on " + workshop_.label(dropped_->stands_on);
    words.stands_wrong = !dropped_->seated;
    if (dropped_->seated && view_.hand.over) {
      // It lies at the right height and is wrong all the same.
      words.stands_wrong = true;
      words.stands_more = "The wrong way up, and no stand-off tells";
      const auto pack = pack_with_turned(workshop_, simulation_, step_.part, view_.step);
      if (pack) {
        words.stands_more += ": clearance " + length(pack->turned.clearance_m) + ", " +
                             word_for(pack->turned.verdict);
      }
      return;
    }
    if (dropped_->seated) {
      words.stands_more = "Seated, " + pose_words(dropped_->poses);
      return;
    }
    const double off_m = dropped_->stand_off_m;
    words.stands_more = length(std::abs(off_m)) + (off_m >= 0 ? " above home" : " below home");
    if (!dropped_->poses.empty()) {
      const double turn_rad = nearest_turn(dropped_->poses, dropped_->turn_rad);
      const double by_rad = std::remainder(turn_rad - dropped_->turn_rad, 6.283185307179586);
      words.stands_more += ", " + print_angle(std::abs(by_rad), 1) + " " +
                           (by_rad > 0 ? "counter-clockwise" : "clockwise") +
                           " to its key, seen from above";
    }
    const std::size_t wanted = dropped_->engaged.size() + dropped_->not_engaged.size();
    if (!dropped_->not_engaged.empty()) {
      words.stands_more += " · " + std::to_string(dropped_->engaged.size()) + " of " +
                           std::to_string(wanted) + " picked up";
    }
    if (dropped_->level.cocked) {
      words.stands_more += ", cocked";
    }
  }

  void seated_words(Words& words) const {
    if (outcome_.ring) {
      words.stands =
          outcome_.ring->fate == RingFate::seated ? "In its groove" : "Not in its groove";
      words.stands_wrong = outcome_.ring->fate != RingFate::seated;
      if (outcome_.ring->fate != RingFate::seated) {
        return;
      }
      const double play_m = outcome_.ring->play_m;
      if (outcome_.ring->waved) {
        words.stands_more = "its waves take up the groove's play" +
                            (play_m > told_m ? ", but for " + length(play_m) : std::string());
      } else if (play_m > told_m) {
        words.stands_more = length(play_m) + " of play in the groove";
      }
      return;
    }
    if (!outcome_.lowered || !outcome_.lowered->rest_m) {
      return;
    }
    const Lowered& lowered = *outcome_.lowered;
    words.stands = "Seated on " + workshop_.label(lowered.stands_on);
    words.stands_wrong = !lowered.seated && !step_.seat.empty();
    if (words.stands_wrong) {
      words.stands = "Standing on " + workshop_.label(lowered.stands_on);
    }
    words.stands_more = pose_words(lowered.poses);
  }

  [[nodiscard]] static std::string pose_words(const std::vector<TurnRange>& poses) {
    const PoseSummary summary = summary_of(poses);
    if (summary.count == 0) {
      return {};
    }
    if (poses.front().whole()) {
      return "at any angle";
    }
    if (summary.count == 1) {
      return "keyed: one angle only, within " + print_angle(summary.width_rad, 2);
    }
    return std::to_string(summary.count) + " angles, " +
           (summary.step_rad > 0 ? print_angle(summary.step_rad, 0) + " apart"
                                 : "not evenly spaced");
  }

  /// What the wrong way up would do: the sequence's words, and the figure from
  /// the drop and the pack where there is one.
  [[nodiscard]] std::string wrong_way() const {
    const std::string computed = computed_wrong_way();
    if (step_.wrong_way_text.empty() || computed.empty()) {
      return step_.wrong_way_text + computed;
    }
    return step_.wrong_way_text + " " + computed;
  }

  [[nodiscard]] std::string computed_wrong_way() const {
    if (!outcome_.turned) {
      return {};
    }
    const Lowered& turned = *outcome_.turned;
    const RestSpan best = turned.answer.lowest();
    if (!turned.expected_known || !best.rest_m) {
      return {};
    }
    // A hand turns it until it drops: only what it does at its best angle tells.
    const double proud_m = *best.rest_m - turned.expected_m;
    if (turned.poses.empty() && proud_m > told_m) {
      return "The other way up it stands " + length(proud_m) + " proud on the " +
             workshop_.label(turned.below_ids[best.contact.below]) + ".";
    }
    const auto pack = pack_with_turned(workshop_, simulation_, step_.part, view_.step);
    if (pack && pack->turned.outside_by_m > 0) {
      return "The other way up the clearance is " + length(pack->turned.clearance_m) + ", " +
             word_for(pack->turned.verdict) + ".";
    }
    return {};
  }

  [[nodiscard]] std::string reading() const {
    if (!outcome_.air.empty()) {
      return air();
    }
    if (!outcome_.reading) {
      return {};
    }
    const ReadingReport& read = *outcome_.reading;
    const LengthUnit unit = view_.settings.unit;
    const int places = unit == LengthUnit::inch ? 3 : 2;
    return print_length_both(read.value_m, unit) + ", limits " +
           print_length_figure(read.low_m, unit, places) + " to " + length(read.high_m);
  }

  /// At the unit's test pressure; those that do not move are among the problems.
  [[nodiscard]] std::string air() const {
    const LengthUnit unit = view_.settings.unit;
    const std::string at = "At " + print_pressure(unit_.drive->air->test_Pa, unit) + " of air: ";
    if (outcome_.air.size() == 1) {
      const AirReach& reach = outcome_.air.front().reach;
      if (!outcome_.air.front().stopped) {
        return at + length(reach.travel_m) + " to its own stop";
      }
      return at + length(reach.travel_m) + " of travel, clamped with " +
             print_force(reach.clamp_N, unit);
    }
    const auto made = std::ranges::count_if(
        outcome_.air, [](const AirFinding& finding) { return finding.reach.completes; });
    return at + std::to_string(made) + " of " + std::to_string(outcome_.air.size()) +
           " pistons make their stroke";
  }

  const Unit& unit_;
  Workshop& workshop_;
  const Simulation& simulation_;
  const ViewState& view_;
  const Step& step_;
  const StepOutcome& outcome_;
  const std::optional<Lowered>& dropped_;
};

const char* count_word(std::size_t count) {
  static constexpr const char* words[] = {"none", "one",    "two",   "three", "four",
                                          "five", "six",    "seven", "eight", "nine",
                                          "ten",  "eleven", "twelve"};
  return count < std::size(words) ? words[count] : "many";
}

} // namespace

Words Stage::words(const ViewState& view) const {
  std::optional<Lowered> dropped;
  if (view.hand.let_go && view.moment < 1) {
    dropped = held_drop(view);
  }
  return Wording(unit(), workshop(), simulation(), view, dropped).words();
}

std::vector<RuleTick> Stage::rule() const {
  std::vector<RuleTick> ticks;
  std::string chapter;
  for (std::size_t i = 0; i < unit().steps.size(); ++i) {
    const Step& step = unit().steps[i];
    RuleTick tick;
    tick.step = i;
    tick.chapter_starts = i == 0 || step.chapter != chapter;
    chapter = step.chapter;
    tick.chapter = tick.chapter_starts ? chapter : std::string();
    tick.fails = !simulation().outcomes[i].problems.empty();
    ticks.push_back(tick);
  }
  return ticks;
}

std::vector<Waiting> Stage::waiting(const ViewState& view) const {
  const Step& now = unit().steps[view.step];
  std::vector<Waiting> tray;
  std::vector<std::size_t> counts;
  const std::size_t from = view.step + (view.moment >= 1 ? 1 : 0);
  for (std::size_t i = from; i < unit().steps.size(); ++i) {
    const Step& step = unit().steps[i];
    if (step.chapter != now.chapter) {
      break;
    }
    const bool goes_in = step.kind == StepKind::place || step.kind == StepKind::grease ||
                         step.kind == StepKind::refit || step.kind == StepKind::spread;
    const UnitComponent* component = goes_in ? unit().component(step.part) : nullptr;
    if (component == nullptr) {
      continue;
    }
    const auto known = std::ranges::find(tray, component->line, &Waiting::line);
    if (known != tray.end()) {
      ++counts[static_cast<std::size_t>(known - tray.begin())];
      continue;
    }
    const Component& part = workshop().part(component->id);
    Waiting waiting;
    waiting.line = component->line;
    waiting.outer_m = part.solid.outer_m();
    waiting.height_m = part.solid.high_m() - part.solid.low_m();
    waiting.material = part.material;
    waiting.next = i == view.step;
    tray.push_back(waiting);
    counts.push_back(1);
  }
  for (std::size_t i = 0; i < tray.size(); ++i) {
    // The label of a piece is "friction 2"; of its line, "friction".
    std::string label;
    for (const UnitComponent& component : unit().components) {
      if (component.line == tray[i].line) {
        label = component.label.empty() ? component.id : component.label;
        break;
      }
    }
    const auto last = label.find_last_not_of("0123456789 ");
    label.resize(last == std::string::npos ? label.size() : last + 1);
    tray[i].words = label + ", " + count_word(counts[i]);
  }
  return tray;
}

} // namespace lugline
