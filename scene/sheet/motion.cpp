#include "scene/sheet/motion.h"

#include "scene/sheet/benches.h"
#include "scene/sheet/carry.h"

#include <algorithm>
#include <cassert>
#include <optional>

namespace lugline {

namespace {

/// The timeline's legs begin and end at whole hundredths of a step.
constexpr int moments = 100;
constexpr int carry_moments = 60;
constexpr double carry_s = 1.6;
constexpr double pause_s = 0.3;
/// Something moves although the step has no motion of its own: what fell, what was let go.
constexpr double least_s = 0.6;
/// Of a step of a stated length: how much of it passes at rest, and in being carried.
constexpr double pause_share = 0.15;
constexpr double carry_share = 0.5;

class Recorder {
public:
  Recorder(Workshop& workshop, const Simulation& simulation, const MotionOptions& options)
      : workshop_(workshop), simulation_(simulation), options_(options) {
    motion_.origins = benches_of(workshop, simulation, options.from, options.to);
    for (const UnitComponent& component : workshop.unit().components) {
      held_[component.id] = {};
    }
    stand(simulation.before(options.from), held_);
  }

  SequenceMotion record() {
    for (std::size_t step = options_.from; step <= options_.to; ++step) {
      record(step);
    }
    motion_.after = held_;
    motion_.seconds = motion_.steps.back().end_s;
    return std::move(motion_);
  }

private:
  [[nodiscard]] Vec3 origin(const std::string& place) const {
    const auto found = motion_.origins.find(place);
    return found == motion_.origins.end() ? Vec3{} : found->second;
  }

  /// What the state has in, where it is; what it has not is not shown any more.
  void stand(const BuildState& state, PieceFrames& frames) const {
    for (auto& [id, frame] : frames) {
      frame.shown = false;
    }
    for (const auto& [place, what] : state.places) {
      for (const Fitted& fitted : what.fitted) {
        frames[fitted.id] = frame_of(workshop_, fitted, place, origin(place));
      }
    }
  }

  [[nodiscard]] PieceFrames at(std::size_t step, double moment) const {
    const Moment now = moment_of(workshop_, simulation_, step, moment);
    PieceFrames frames = held_;
    for (auto& [id, frame] : frames) {
      // What was in the place and is not in the moment fell out of it.
      frame.shown = frame.shown && frame.place != now.place;
    }
    for (const PosedPiece& piece : now.pieces) {
      frames[piece.id] = frame_of(workshop_, piece, now.place, origin(now.place));
    }
    return frames;
  }

  /// Work that stands finished on another bench, from there to where the step takes it up.
  [[nodiscard]] std::optional<Carry> carried(std::size_t step, const PieceFrames& begin) const {
    const auto& hand = simulation_.outcomes[step].hand;
    PieceFrames was;
    PieceFrames will;
    double clear_m = 0;
    for (const auto& [id, frame] : begin) {
      const PieceFrame& now = held_.at(id);
      if (frame.shown && now.shown && frame.place != now.place) {
        was[id] = now;
        will[id] = frame;
      } else if (now.shown) {
        clear_m = std::max(clear_m, now.high_m);
      }
    }
    if (was.empty()) {
      return std::nullopt;
    }
    const bool led = hand != nullptr && was.contains(hand->lead);
    const std::string lead = led ? hand->lead : was.begin()->first;
    return Carry(std::move(was), std::move(will), lead, clear_m);
  }

  void record(std::size_t step) {
    StepMotion motion;
    motion.step = step;
    motion.start_s = motion_.steps.empty() ? 0 : motion_.steps.back().end_s;
    motion.rests_s = motion.end_s = motion.start_s;
    motion.before = held_;
    PieceFrames after = at(step, 1);
    stand(simulation_.after[step], after);
    const double natural_s = natural_seconds(simulation_, workshop_.unit(), step);
    const bool changes = std::ranges::any_of(
        after, [&](const auto& entry) { return !alike(entry.second, held_.at(entry.first)); });
    if (natural_s > 0 || changes) {
      play(step, natural_s > 0 ? natural_s : least_s, after, motion);
    }
    held_ = std::move(after);
    motion_.steps.push_back(std::move(motion));
  }

  void play(std::size_t step, double natural_s, const PieceFrames& after, StepMotion& motion) {
    const PieceFrames begin = at(step, 0);
    const std::optional<Carry> carry = carried(step, begin);
    double carry_for_s = carry ? carry_s : 0;
    double move_s = natural_s;
    double pause = pause_s;
    if (options_.seconds > 0) {
      pause = options_.seconds * pause_share;
      carry_for_s = carry ? options_.seconds * carry_share : 0;
      move_s = options_.seconds - pause - carry_for_s;
    }
    std::vector<PieceFrames> frames;
    for (int i = 0; carry && i < carry_moments; ++i) {
      const double share = static_cast<double>(i) / carry_moments;
      motion.at_s.push_back(share * carry_for_s);
      frames.push_back(begin);
      for (const auto& [id, frame] : carry->at(share)) {
        frames.back()[id] = frame;
      }
    }
    for (int i = 0; i < moments; ++i) {
      const double moment = static_cast<double>(i) / moments;
      motion.at_s.push_back(carry_for_s + moment * move_s);
      frames.push_back(at(step, moment));
    }
    motion.at_s.push_back(carry_for_s + move_s);
    frames.push_back(after);
    motion.rests_s = motion.start_s + carry_for_s + move_s;
    motion.end_s = motion.rests_s + pause;
    for (const auto& [id, before] : motion.before) {
      const auto moved = [&, &was = before, &name = id](const PieceFrames& now) {
        return !alike(now.at(name), was);
      };
      if (std::ranges::any_of(frames, moved)) {
        std::vector<PieceFrame>& track = motion.moves[id];
        for (const PieceFrames& now : frames) {
          track.push_back(now.at(id));
        }
      }
    }
  }

  Workshop& workshop_;
  const Simulation& simulation_;
  const MotionOptions& options_;
  SequenceMotion motion_;
  PieceFrames held_;
};

} // namespace

SequenceMotion motion_of(Workshop& workshop, const Simulation& simulation,
                         const MotionOptions& options) {
  assert(options.from <= options.to && options.to < simulation.after.size());
  return Recorder(workshop, simulation, options).record();
}

} // namespace lugline
