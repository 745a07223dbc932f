#include "scene/sheet/benches.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace lugline {

namespace {

constexpr double room_between_m = 0.08;

/// What a place takes up, and when.
struct Bench {
  std::string id;
  std::size_t first = 0;
  std::size_t last = 0;
  double low_m = 0;
  double outer_m = 0;
};

void take_in(Workshop& workshop, const BuildState& state, std::size_t step,
             std::map<std::string, Bench>& benches) {
  for (const auto& [id, place] : state.places) {
    if (place.fitted.empty()) {
      continue;
    }
    const auto [found, fresh] = benches.try_emplace(id);
    Bench& bench = found->second;
    if (fresh) {
      bench.id = id;
      bench.first = step;
    }
    bench.last = step;
    for (const Fitted& fitted : place.fitted) {
      const Shape& shape = shape_of(workshop, fitted);
      bench.low_m = std::min(bench.low_m, fitted.height_m + shape.low_m());
      // Turned over, it sweeps as wide as it is high.
      bench.outer_m =
          std::max({bench.outer_m, shape.solid().outer_m(),
                    std::hypot(shape.solid().outer_m(), (shape.high_m() - shape.low_m()) / 2)});
    }
  }
}

/// A spot beside the middle, on which one bench after another stands.
struct Spot {
  std::vector<Bench> benches;
  double outer_m = 0;
};

bool is_free(const Spot& spot, const Bench& bench) {
  return std::ranges::all_of(spot.benches, [&](const Bench& other) {
    return other.last < bench.first || bench.last < other.first;
  });
}

} // namespace

std::map<std::string, Vec3> benches_of(Workshop& workshop, const Simulation& simulation,
                                       std::size_t from, std::size_t to) {
  std::map<std::string, Bench> all;
  take_in(workshop, simulation.before(from), from, all);
  for (std::size_t step = from; step <= to; ++step) {
    take_in(workshop, simulation.after[step], step, all);
  }
  const std::string& main = workshop.unit().steps[to].place;
  std::vector<Bench> others;
  for (const auto& [id, bench] : all) {
    if (id != main) {
      others.push_back(bench);
    }
  }
  // What is brought leaves its bench in that very step: it is still taken then.
  for (Bench& bench : others) {
    bench.last += 1;
  }
  std::ranges::stable_sort(others, {}, &Bench::first);
  std::vector<Spot> spots;
  for (const Bench& bench : others) {
    auto spot = std::ranges::find_if(spots, [&](const Spot& s) { return is_free(s, bench); });
    if (spot == spots.end()) {
      spot = spots.insert(spots.end(), Spot{});
    }
    spot->benches.push_back(bench);
    spot->outer_m = std::max(spot->outer_m, bench.outer_m);
  }
  std::map<std::string, Vec3> origins;
  const auto middle = all.find(main);
  const double middle_low_m = middle == all.end() ? 0 : middle->second.low_m;
  double left_m = middle == all.end() ? 0 : middle->second.outer_m;
  double right_m = left_m;
  origins[main] = {};
  for (std::size_t i = 0; i < spots.size(); ++i) {
    double& reach_m = i % 2 == 0 ? left_m : right_m;
    const double at_m = reach_m + room_between_m + spots[i].outer_m;
    reach_m = at_m + spots[i].outer_m;
    for (const Bench& bench : spots[i].benches) {
      // All stand on one floor.
      origins[bench.id] = {i % 2 == 0 ? -at_m : at_m, 0, middle_low_m - bench.low_m};
    }
  }
  return origins;
}

} // namespace lugline
