#include "scene/sheet/animation.h"

#include "scene/mesh/vector.h"
#include "scene/sheet/keys.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <memory>
#include <optional>
#include <tuple>

namespace lugline {

namespace {

using Json = nlohmann::ordered_json;

std::string text_of(const Json& json) {
  return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

/// Models at the known figures: those that were read thicker or thinner are stretched.
class Models {
public:
  explicit Models(const Workshop& workshop) : workshop_(workshop) {}

  const Mesh* of(const UnitComponent& component) {
    if (component.mesh == nullptr) {
      return nullptr;
    }
    const Figure* figure = workshop_.part(component.id).figure("thickness");
    if (figure == nullptr || !component.model_thickness_m) {
      return component.mesh.get();
    }
    const double delta_m = figure->value_m - *component.model_thickness_m;
    if (std::abs(delta_m) < 1e-9) {
      return component.mesh.get();
    }
    // The zone is that of the model, before it was stretched.
    const Key key{component.mesh.get(), figure->zone_low_m, figure->zone_high_m - delta_m, delta_m};
    std::unique_ptr<Mesh>& mesh = stretched_[key];
    if (mesh == nullptr) {
      mesh = std::make_unique<Mesh>(*component.mesh);
      for (Vec3& point : mesh->positions_m) {
        point.z = stretched_height(point.z, std::get<1>(key), std::get<2>(key), delta_m);
      }
    }
    return mesh.get();
  }

private:
  using Key = std::tuple<const Mesh*, double, double, double>;
  const Workshop& workshop_;
  // Looked up only: the order of pointers decides nothing.
  std::map<Key, std::unique_ptr<Mesh>> stretched_;
};

class Animator {
public:
  Animator(Workshop& workshop, const Simulation& simulation, const MotionOptions& options)
      : workshop_(workshop), unit_(workshop.unit()),
        motion_(motion_of(workshop, simulation, options)), models_(workshop) {}

  AnimationReport animate() {
    for (const UnitComponent& component : unit_.components) {
      if (ever_shown(component.id)) {
        add_nodes(component);
      }
    }
    model_.name = unit_.label.empty() ? unit_.name : unit_.name + " (" + unit_.label + ")";
    model_.extras_json = text_of(scene_extras());
    add_whole();
    for (const StepMotion& step : motion_.steps) {
      add_step(step);
    }
    AnimationReport report;
    report.glb = write_animated_glb(model_);
    report.pieces = pieces_.size();
    report.animations = model_.animations.size();
    report.seconds = motion_.seconds;
    return report;
  }

private:
  [[nodiscard]] bool ever_shown(const std::string& id) const {
    return motion_.after.at(id).shown || motion_.steps.front().before.at(id).shown ||
           std::ranges::any_of(motion_.steps,
                               [&](const StepMotion& step) { return step.moves.contains(id); });
  }

  [[nodiscard]] bool ever_squashed(const std::string& id) const {
    const auto squashed = [](const PieceFrame& frame) { return frame.squash != 1; };
    return squashed(motion_.after.at(id)) ||
           std::ranges::any_of(motion_.steps, [&](const StepMotion& step) {
             const auto moves = step.moves.find(id);
             return squashed(step.before.at(id)) ||
                    (moves != step.moves.end() && std::ranges::any_of(moves->second, squashed));
           });
  }

  /// The piece, and beneath it, where it gives, what makes it less high.
  void add_nodes(const UnitComponent& component) {
    const PieceFrame& rest = motion_.after.at(component.id);
    KeyedPiece piece;
    piece.id = component.id;
    piece.node = model_.nodes.size();
    piece.low_m = workshop_.part(component.id).solid.low_m();
    piece.rest = rest;
    AnimatedNode node;
    node.name = component.id;
    node.at_m = rest.at_m;
    node.turn = rest.turn;
    node.scale = rest.shown ? Vec3{1, 1, 1} : Vec3{};
    node.extras_json = text_of({{"label", workshop_.label(component.id)},
                                {"kind", word_for(component.part.kind)},
                                {"material", component.part.material}});
    const Mesh* mesh = models_.of(component);
    if (!ever_squashed(component.id)) {
      node.mesh = mesh;
      model_.nodes.push_back(std::move(node));
    } else {
      model_.nodes.push_back(std::move(node));
      AnimatedNode giving;
      giving.name = component.id + " height";
      giving.parent = piece.node;
      giving.mesh = mesh;
      giving.at_m = {0, 0, piece.low_m * (1 - rest.squash)};
      giving.scale = {1, 1, rest.squash};
      piece.giving = model_.nodes.size();
      model_.nodes.push_back(std::move(giving));
    }
    pieces_.push_back(std::move(piece));
  }

  void add_whole() {
    NodeAnimation whole;
    whole.name = "the whole sequence";
    if (motion_.steps.size() < unit_.steps.size()) {
      whole.name = "from " + unit_.steps[motion_.steps.front().step].id + " to " +
                   unit_.steps[motion_.steps.back().step].id;
    }
    whole.extras_json = text_of({{"label", unit_.label}});
    for (const KeyedPiece& piece : pieces_) {
      TrackKeys keys;
      for (const StepMotion& step : motion_.steps) {
        if (keys.at_s.empty()) {
          keys.add(0, step.before.at(piece.id));
        }
        const auto moves = step.moves.find(piece.id);
        if (moves == step.moves.end()) {
          continue;
        }
        for (std::size_t i = 0; i < step.at_s.size(); ++i) {
          const bool ends = i == 0 || i + 1 == step.at_s.size();
          keys.add(step.start_s + step.at_s[i], moves->second[i], ends);
        }
      }
      if (keys.at_s.size() > 1) {
        add_tracks(piece, keys, whole.tracks);
      } else if (!keys.frames.empty() && !alike(keys.frames.front(), piece.rest)) {
        add_still(piece, keys.frames.front(), motion_.seconds, whole.tracks);
      }
    }
    if (motion_.seconds > 0) {
      model_.animations.push_back(std::move(whole));
    }
  }

  /// Where a piece stands otherwise than at rest, the step's animation must say so too.
  void add_step(const StepMotion& step) {
    if (step.at_s.empty()) {
      return;
    }
    const Step& what = unit_.steps[step.step];
    NodeAnimation animation;
    animation.name = step_number(step.step) + what.id;
    animation.extras_json =
        text_of({{"step", what.id}, {"do", what.do_text}, {"label", unit_.label}});
    for (const KeyedPiece& piece : pieces_) {
      const auto moves = step.moves.find(piece.id);
      if (moves != step.moves.end()) {
        TrackKeys keys;
        for (std::size_t i = 0; i < step.at_s.size(); ++i) {
          keys.add(step.at_s[i], moves->second[i]);
        }
        add_tracks(piece, keys, animation.tracks);
      } else {
        add_still(piece, step.before.at(piece.id), step.at_s.back(), animation.tracks);
      }
    }
    model_.animations.push_back(std::move(animation));
  }

  [[nodiscard]] Json scene_extras() const {
    Json extras = {{"label", unit_.label}, {"notice", unit_.notice}, {"seconds", motion_.seconds}};
    extras["places"] = Json::array();
    for (const Place& place : unit_.places) {
      if (const auto origin = motion_.origins.find(place.id); origin != motion_.origins.end()) {
        const Vec3& at = origin->second;
        extras["places"].push_back({{"id", place.id},
                                    {"name", place.name},
                                    {"origin_m", {at.x + 0.0, at.z + 0.0, 0.0 - at.y}}});
      }
    }
    extras["steps"] = Json::array();
    for (const StepMotion& motion : motion_.steps) {
      const Step& step = unit_.steps[motion.step];
      extras["steps"].push_back({{"id", step.id},
                                 {"chapter", step.chapter},
                                 {"place", step.place},
                                 {"do", step.do_text},
                                 {"know", step.know_text},
                                 {"caution", step.caution_text},
                                 {"start_s", motion.start_s},
                                 {"rests_s", motion.rests_s},
                                 {"end_s", motion.end_s}});
    }
    return extras;
  }

  Workshop& workshop_;
  const Unit& unit_;
  SequenceMotion motion_;
  Models models_;
  AnimatedModel model_;
  std::vector<KeyedPiece> pieces_;
};

} // namespace

AnimationReport animate(Workshop& workshop, const Simulation& simulation,
                        const MotionOptions& options) {
  return Animator(workshop, simulation, options).animate();
}

std::string step_number(std::size_t step) {
  const std::string digits = std::to_string(step + 1);
  return std::string(digits.size() < 3 ? 3 - digits.size() : 0, '0') + digits + " ";
}

} // namespace lugline
