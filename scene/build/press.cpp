// Pressing down on springs, and letting go.
#include "scene/build/feature.h"
#include "scene/build/steps.h"

#include "scene/seat/drop.h"
#include "scene/seat/ring.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace lugline::build {

namespace {

/// How low and how high a spring or a wave plate can be.
struct Give {
  double least_m = 0;
  double free_m = 0;
};

std::optional<Give> give_of(const Component& part) {
  if (part.springs) {
    return Give{part.springs->solid_m, part.springs->free_m};
  }
  if (part.wave) {
    return Give{part.wave->flat_m, part.wave->free_m};
  }
  return std::nullopt;
}

/// What goes down together when its top is pressed: rigid pieces, each standing
/// on the next, down to the first that gives.
struct Column {
  std::vector<std::string> rigid;
  std::string gives; ///< empty where nothing does
};

Column column_under(Bench bench, const std::string& top) {
  Column column;
  const PlaceState& place = bench.place();
  std::string at = top;
  for (std::size_t steps = 0; steps < place.fitted.size(); ++steps) {
    const Fitted* piece = place.find(at);
    if (piece == nullptr) {
      break;
    }
    if (give_of(bench.workshop.part(at))) {
      column.gives = at;
      break;
    }
    column.rigid.push_back(at);
    at = piece->stands_on;
  }
  return column;
}

double height_of(Workshop& workshop, const Fitted& piece) {
  const Shape& shape = shape_of(workshop, piece);
  return shape.high_m() - shape.low_m();
}

/// The air between the lowest rigid piece and what gives beneath it, as they stand.
double air_above(Bench bench, const Column& column) {
  const Fitted& above = *bench.place().find(column.rigid.back());
  const Fitted& spring = *bench.place().find(column.gives);
  const Body moving{above.id, &shape_of(bench.workshop, above), 0, above.turn_rad, spin_hand};
  const Body below{spring.id, &shape_of(bench.workshop, spring), spring.height_m, spring.turn_rad,
                   spin_fixed};
  DropQuestion question;
  question.moving = {moving};
  question.below = {below};
  const auto rest_m = drop(question).at(0).rest_m;
  return rest_m ? std::max(above.height_m - *rest_m, 0.0) : 0;
}

void move_column(Bench bench, const Column& column, double up_m) {
  for (const std::string& id : column.rigid) {
    bench.place().find(id)->height_m += up_m;
    bench.outcome.moved.push_back(id);
  }
}

void set_spring(Bench bench, const std::string& id, double height_m) {
  const Give give = *give_of(bench.workshop.part(id));
  if (height_m < give.least_m - contact_tolerance_m) {
    bench.problem(bench.workshop.label(id) + " would be pressed " + mm(give.least_m - height_m) +
                  " beyond solid: it cannot be less than " + mm(give.least_m) + " high");
  }
  bench.place().find(id)->squashed_to_m = std::clamp(height_m, give.least_m, give.free_m);
  bench.outcome.moved.push_back(id);
}

} // namespace

void squash(Bench bench, const std::string& id, double by_m) {
  set_spring(bench, id, height_of(bench.workshop, *bench.place().find(id)) - by_m);
}

void press(Bench bench) {
  const Step& step = bench.step;
  const std::string& name = bench.workshop.label(step.part);
  Fitted* part = bench.place().find(step.part);
  if (part == nullptr || !step.press_to_m) {
    bench.problem(name + " is not in, so it cannot be pressed");
    return;
  }
  const double down_m = part->height_m - *step.press_to_m;
  if (down_m < -contact_tolerance_m) {
    bench.problem(name + " rests at " + mm(part->height_m) + " already, below the " +
                  mm(*step.press_to_m) + " to press it to");
    return;
  }
  const Column column = column_under(bench, step.part);
  if (column.gives.empty() || column.rigid.empty()) {
    bench.problem("nothing under " + name + " gives: there is no spring to press together");
    return;
  }
  const double squash_m = std::max(down_m - air_above(bench, column), 0.0);
  const double height_m = height_of(bench.workshop, *bench.place().find(column.gives)) - squash_m;
  part->pressed = true;
  move_column(bench, column, -down_m);
  set_spring(bench, column.gives, height_m);
}

namespace {

/// A ring that something pushes up goes to the load face of its groove. False
/// where it is no ring, or its groove loads the other way.
bool lift_to_load(Bench bench, const std::string& id) {
  Fitted* ring = bench.place().find(id);
  const auto loaded_m = ring == nullptr || ring->groove.empty()
                            ? std::nullopt
                            : loaded_height(bench.workshop, bench.place(), *ring);
  if (!loaded_m || *loaded_m < ring->height_m) {
    return false;
  }
  ring->height_m = *loaded_m;
  if (const Component& part = bench.workshop.part(id); part.ring && part.ring->waved()) {
    ring->squashed_to_m = flat_height_m(part);
  }
  bench.outcome.moved.push_back(id);
  return true;
}

/// How far the column can rise as it stands, and whether something stops it.
Travel rise_of(Bench bench, const Column& column, std::string& stopped_by) {
  std::vector<Body> moving;
  for (const Body& body : bodies_in(bench.workshop, bench.place()).bodies) {
    if (std::ranges::find(column.rigid, body.id) != column.rigid.end()) {
      moving.push_back(body);
    }
  }
  const Bodies others = bodies_in(bench.workshop, bench.place(), column.rigid);
  const Travel way = rise(moving, others.bodies);
  stopped_by = way.contact ? others.ids[way.contact->below] : "";
  return way;
}

/// Springs raise what was pressed to the ring that keeps it, or as far as they reach.
void let_pressed_go(Bench bench, const std::string& id) {
  const std::string& name = bench.workshop.label(id);
  bench.place().find(id)->pressed = false;
  const Column column = column_under(bench, id);
  if (column.gives.empty() || column.rigid.empty()) {
    return; // told when it was pressed
  }
  std::string stopped_by;
  Travel way = rise_of(bench, column, stopped_by);
  if (way.contact && lift_to_load(bench, stopped_by)) {
    way = rise_of(bench, column, stopped_by);
  }
  const bool springs = bench.workshop.part(column.gives).springs.has_value();
  if (!way.contact && springs) {
    bench.problem("nothing keeps " + name +
                  " down when it is let go: its springs would throw it out");
    return;
  }
  const double now_m = height_of(bench.workshop, *bench.place().find(column.gives));
  const double reach_m = give_of(bench.workshop.part(column.gives))->free_m - now_m;
  const double up_m = std::min(way.up_m, reach_m);
  move_column(bench, column, up_m);
  set_spring(bench, column.gives, now_m + up_m);
  if (way.contact && way.up_m <= reach_m + contact_tolerance_m) {
    bench.place().find(id)->joint = {JointKind::retained, stopped_by, false, ""};
  }
}

} // namespace

/// What was held is let go.
void let_joints_go(Bench bench) {
  for (const std::string& id : bench.step.lets_go) {
    Fitted* part = bench.place().find(id);
    if (part == nullptr) {
      bench.problem(bench.workshop.label(id) + " is not in, so it cannot be let go");
    } else if (part->pressed) {
      let_pressed_go(bench, id);
    } else if (part->joint.kind == JointKind::loose) {
      bench.problem("nothing holds " + bench.workshop.label(id) + ", so it cannot be let go");
    } else {
      part->joint = {};
    }
  }
  if (!bench.step.lets_go.empty()) {
    let_fall(bench);
  }
}

void let_fall(Bench bench) {
  const Place* place = bench.workshop.unit().place(bench.step.place);
  const std::vector<std::string> out =
      settle(bench.workshop, bench.place(), place == nullptr ? std::string() : place->base);
  for (const std::string& id : out) {
    bench.outcome.moved.push_back(id);
    bench.problem(fell_out(bench.workshop, id, ""));
  }
}

std::string fell_out(const Workshop& workshop, const std::string& id, const std::string& when) {
  return workshop.label(id) + " falls out" + when + ": nothing holds it";
}

void judge_held_down(Bench bench, const PlaceState& place) {
  for (const Fitted& piece : place.fitted) {
    if (piece.pressed) {
      bench.problem(bench.workshop.label(piece.id) + " is still held down: let it go first");
    }
  }
}

} // namespace lugline::build
