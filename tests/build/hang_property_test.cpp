// Small units at random: a lead with shelves, pieces loose between them, and posts
// to lower them onto. What the shortest chains of gaps say is held against a crude
// lowering and a crude settling by small steps, which know nothing of chains.

#include "tests/build/small_unit.h"
#include "tests/seat/random_parts.h"

#include "scene/build/hang.h"
#include "scene/build/lower.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>
#include <random>
#include <set>

using namespace lugline;
using namespace lugline::test;

namespace {

constexpr double mm = 1e-3;
constexpr double step_m = 0.1 * mm;  // how far the lead comes down at a time
constexpr double push_m = 0.02 * mm; // how far a piece is pushed, or falls, at a time
constexpr double touch_m = 1e-9;

double between(std::mt19937& random, double low, double high) {
  return low + (high - low) * static_cast<double>(random()) / 4294967296.0;
}
bool chance(std::mt19937& random, double share) {
  return between(random, 0, 1) < share;
}

SectorRing some_ring(std::mt19937& random, double inner_m, double low_m, double thick_m) {
  SectorRing ring;
  ring.inner_m = inner_m;
  ring.outer_m = inner_m + between(random, 4, 25) * mm;
  ring.low_m = low_m;
  ring.high_m = low_m + thick_m;
  if (chance(random, 0.4)) {
    const int count = 1 + static_cast<int>(random() % 6);
    ring.sectors = repeated(radial_sector(between(random, 0, 6), 3.0 / count), count);
  }
  return ring;
}

/// A spine with shelves.
Component some_lead(std::mt19937& random) {
  Component lead = part_of("LEAD", ComponentKind::drum, {ring_mm(10, 40, 0, 40)});
  double low_m = 0;
  while (low_m < 36 * mm) {
    lead.solid.rings.push_back(some_ring(random, 20 * mm, low_m, 1.5 * mm));
    low_m += between(random, 4, 14) * mm;
  }
  return lead;
}

/// One ring about the spine, or two of them, the second on the first's edge.
Component some_piece(std::mt19937& random, const std::string& id) {
  Component piece = part_of(id, ComponentKind::other, {});
  SectorRing first =
      some_ring(random, between(random, 21, 50) * mm, 0, between(random, 1.2, 3) * mm);
  piece.solid.rings.push_back(first);
  if (chance(random, 0.5)) {
    piece.solid.rings.push_back(some_ring(random, first.outer_m, between(random, -4, 4) * mm,
                                          between(random, 1.2, 4) * mm));
  }
  return piece;
}

/// A hand and what it is lowered onto, all at turn 0.
struct World {
  Unit unit;
  std::unique_ptr<Workshop> workshop;
  InHand hand;
  PlaceState into;

  void add(Component part) {
    UnitComponent component;
    component.id = part.id;
    component.line = part.id;
    component.part = std::move(part);
    unit.components.push_back(std::move(component));
  }
};

bool clear_of(Workshop& workshop, const Fitted& piece, const std::vector<Fitted>& others) {
  const Body body{piece.id, &shape_of(workshop, piece), piece.height_m, 0, spin_fixed};
  return std::ranges::none_of(others, [&](const Fitted& other) {
    const Body there{other.id, &shape_of(workshop, other), other.height_m, 0, spin_fixed};
    return fit_between(body, there, contact_tolerance_m).fit == Fit::inside;
  });
}

Fitted fitted(const std::string& id, double height_m, JointKind joint, const std::string& to) {
  Fitted piece;
  piece.id = id;
  piece.height_m = height_m;
  piece.joint = {joint, to, false, ""};
  return piece;
}

std::unique_ptr<World> some_world(std::mt19937& random) {
  auto world = std::make_unique<World>();
  world->add(some_lead(random));
  for (int i = 0; i < 6; ++i) {
    world->add(some_piece(random, "P" + std::to_string(i)));
  }
  for (int i = 0; i < 3; ++i) {
    world->add(part_of("POST" + std::to_string(i), ComponentKind::other,
                       {some_ring(random, between(random, 20, 70) * mm, -200 * mm,
                                  (150 + between(random, 0, 30)) * mm)}));
  }
  world->workshop = std::make_unique<Workshop>(world->unit, Readings{});
  world->hand.lead = "LEAD";
  auto& pieces = world->hand.pieces;
  pieces.push_back(fitted("LEAD", 0, JointKind::loose, ""));
  for (int i = 0; i < 6; ++i) {
    for (int tries = 0; tries < 40; ++tries) {
      const bool fast = i > 1 && chance(random, 0.15);
      const Fitted piece =
          fitted("P" + std::to_string(i), between(random, 0, 36) * mm,
                 fast ? JointKind::stuck : JointKind::loose, fast ? pieces.back().id : "");
      if (clear_of(*world->workshop, piece, pieces)) {
        pieces.push_back(piece);
        break;
      }
    }
  }
  for (int i = 0; i < 3; ++i) {
    world->into.fitted.push_back(fitted("POST" + std::to_string(i), 0, JointKind::fixed, ""));
  }
  return world;
}

/// The pieces of a hand and what stands about, for crude steps.
class Crude {
public:
  Crude(World& world, const std::vector<Fitted>& pieces, bool with_posts) {
    groups_ = groups_of(*world.workshop, pieces, "LEAD");
    for (const Fitted& piece : pieces) {
      shapes_.push_back(&shape_of(*world.workshop, piece));
      start_m_.push_back(piece.height_m);
    }
    if (with_posts) {
      for (const Fitted& post : world.into.fitted) {
        posts_.push_back(&shape_of(*world.workshop, post));
      }
    }
    find_overlaps();
  }

  [[nodiscard]] const Groups& groups() const { return groups_; }
  std::vector<double> at_m; ///< heights now, one for each piece

  /// Lead at the height, what is loose where it hung, or no farther down than a step
  /// from where it was, and then pushed up until nothing is inside anything. False
  /// where that presses something loose into the lead.
  bool lead_at(double height_m) {
    const std::vector<double> was_m = at_m;
    at_m.resize(start_m_.size());
    for (std::size_t i = 0; i < start_m_.size(); ++i) {
      const double hangs_m = height_m + start_m_[i];
      at_m[i] = was_m.empty() || groups_.of[i] == held_group ? hangs_m
                                                             : std::max(hangs_m, was_m[i] - step_m);
    }
    for (bool found = true; found;) {
      found = false;
      for (std::size_t i = 0; i < at_m.size(); ++i) {
        if (!pushed_from_beneath(i)) {
          continue;
        }
        if (groups_.of[i] == held_group) {
          return false;
        }
        move(groups_.of[i], push_m);
        found = true;
      }
    }
    return true;
  }

  /// Every set of loose groups that can go down a little does, until none can.
  void settle() {
    const std::size_t sets = std::size_t{1} << (groups_.count - 1);
    for (bool found = true; found;) {
      found = false;
      for (std::size_t set = 1; set < sets; ++set) {
        const std::vector<double> was_m = at_m;
        shift(set, -push_m);
        if (anything_inside()) {
          at_m = was_m;
        } else {
          found = lowest_m() > -1; // what falls out falls for ever
        }
      }
    }
  }

private:
  struct Pair {
    std::size_t upper; ///< piece; its ring was above the other's, or the other is a post
    std::size_t ring_u;
    std::size_t lower; ///< piece, or pieces + post
    std::size_t ring_l;
  };

  [[nodiscard]] const Shape& shape(std::size_t body) const {
    return body < shapes_.size() ? *shapes_[body] : *posts_[body - shapes_.size()];
  }
  [[nodiscard]] double height_m(std::size_t body) const {
    return body < shapes_.size() ? at_m[body] : 0;
  }

  void find_overlaps() {
    for (std::size_t u = 0; u < shapes_.size(); ++u) {
      for (std::size_t l = 0; l < shapes_.size() + posts_.size(); ++l) {
        for (std::size_t i = 0; i < shape(u).rings().size(); ++i) {
          for (std::size_t j = 0; j < shape(l).rings().size(); ++j) {
            const bool post = l >= shapes_.size();
            const SectorRing& upper = shape(u).rings()[i];
            const SectorRing& lower = shape(l).rings()[j];
            const bool fast = !post && groups_.of[u] == groups_.of[l];
            const bool above = post || start_m_[u] + upper.low_m >=
                                           start_m_[l] + lower.high_m - contact_tolerance_m;
            if (u != l && !fast && above && overlap_by_sampling(upper, lower, 0, 3)) {
              pairs_.push_back({u, i, l, j});
            }
          }
        }
      }
    }
  }

  [[nodiscard]] bool inside(const Pair& pair) const {
    const SectorRing& upper = shape(pair.upper).rings()[pair.ring_u];
    const SectorRing& lower = shape(pair.lower).rings()[pair.ring_l];
    const double u_m = height_m(pair.upper);
    const double l_m = height_m(pair.lower);
    return std::min(u_m + upper.high_m, l_m + lower.high_m) >
           std::max(u_m + upper.low_m, l_m + lower.low_m) + touch_m;
  }
  [[nodiscard]] bool anything_inside() const {
    return std::ranges::any_of(pairs_, [&](const Pair& pair) { return inside(pair); });
  }
  [[nodiscard]] bool pushed_from_beneath(std::size_t piece) const {
    return std::ranges::any_of(
        pairs_, [&](const Pair& pair) { return pair.upper == piece && inside(pair); });
  }
  void move(LooseGroup group, double by_m) {
    for (std::size_t i = 0; i < at_m.size(); ++i) {
      at_m[i] += groups_.of[i] == group ? by_m : 0;
    }
  }
  void shift(std::size_t set, double by_m) {
    for (LooseGroup group = 1; group < groups_.count; ++group) {
      if ((set >> (group - 1) & 1) != 0) {
        move(group, by_m);
      }
    }
  }
  [[nodiscard]] double lowest_m() const { return *std::ranges::min_element(at_m); }

  Groups groups_;
  std::vector<const Shape*> shapes_;
  std::vector<double> start_m_;
  std::vector<const Shape*> posts_;
  std::vector<Pair> pairs_;
};

} // namespace

TEST_CASE("what is loose falls where small steps take it") {
  std::mt19937 random(1140);
  int fell = 0;
  int on_loose = 0;
  for (int round = 0; round < 60; ++round) {
    const auto world = some_world(random);
    InHand hung = world->hand;
    const std::vector<std::string> out = hang(*world->workshop, hung);
    // What falls out is taken out first: what is left lies as it does without it.
    std::vector<Fitted> stays = world->hand.pieces;
    std::erase_if(
        stays, [&](const Fitted& piece) { return std::ranges::find(out, piece.id) != out.end(); });
    Crude crude(*world, stays, false);
    crude.lead_at(0);
    crude.settle();
    INFO("round " << round);
    REQUIRE(hung.pieces.size() == stays.size());
    for (std::size_t i = 0; i < stays.size(); ++i) {
      INFO(stays[i].id);
      CHECK(hung.pieces[i].height_m <= crude.at_m[i] + touch_m);
      CHECK(hung.pieces[i].height_m == Approx(crude.at_m[i]).margin(0.15 * mm));
      fell += stays[i].height_m - hung.pieces[i].height_m > 0.3 * mm ? 1 : 0;
      on_loose += !hung.pieces[i].stands_on.empty() && hung.pieces[i].stands_on != "LEAD" ? 1 : 0;
    }
  }
  CHECK(fell > 50);
  CHECK(on_loose > 10);
}

TEST_CASE("what falls out has nothing beneath it that stays") {
  std::mt19937 random(1141);
  std::size_t fell_out = 0;
  for (int round = 0; round < 60; ++round) {
    const auto world = some_world(random);
    InHand hung = world->hand;
    const std::vector<std::string> out = hang(*world->workshop, hung);
    fell_out += out.size();
    Crude crude(*world, world->hand.pieces, false);
    crude.lead_at(0);
    crude.settle();
    INFO("round " << round);
    for (std::size_t i = 0; i < world->hand.pieces.size(); ++i) {
      INFO(world->hand.pieces[i].id);
      const bool gone = std::ranges::find(out, world->hand.pieces[i].id) != out.end();
      CHECK(gone == (crude.at_m[i] < -0.2));
    }
  }
  CHECK(fell_out > 20);
}

TEST_CASE("a lead with loose pieces comes to rest where small steps take it") {
  std::mt19937 random(1142);
  int pushed_solid = 0;
  int chains = 0;
  int lifted = 0;
  for (int round = 0; round < 80; ++round) {
    const auto world = some_world(random);
    hang(*world->workshop, world->hand);
    const Lowered lowered = lower(*world->workshop, world->hand, world->into, {});
    INFO("round " << round);
    Crude crude(*world, world->hand.pieces, true);
    double height_m = 30 * mm;
    std::vector<double> last_m;
    while (height_m > -150 * mm && crude.lead_at(height_m)) {
      last_m = crude.at_m;
      height_m -= step_m;
    }
    if (!lowered.rest_m) {
      CHECK(height_m <= -150 * mm);
      continue;
    }
    // The crude one stops up to a step, and a push for each piece, too high.
    const double crude_m = height_m + step_m;
    CHECK(crude_m >= *lowered.rest_m - touch_m);
    CHECK(crude_m == Approx(*lowered.rest_m).margin(step_m + 7 * push_m));
    pushed_solid += lowered.by != "LEAD" ? 1 : 0;
    crude.at_m = last_m;
    crude.settle();
    for (std::size_t i = 0; i < last_m.size(); ++i) {
      INFO(world->hand.pieces[i].id);
      const Fitted& landed = lowered.landed[i];
      CHECK(landed.height_m == Approx(crude.at_m[i]).margin(step_m + 8 * push_m));
      lifted += landed.height_m - *lowered.rest_m - world->hand.pieces[i].height_m > 0.3 * mm;
    }
    // What carries the lead is a chain that ends on the post that is named.
    std::set<std::string> seen;
    std::string at = "LEAD";
    while (at.rfind("POST", 0) != 0 && seen.insert(at).second) {
      const auto piece = std::ranges::find(lowered.landed, at, &Fitted::id);
      REQUIRE(piece != lowered.landed.end());
      at = piece->stands_on;
    }
    CHECK(at == lowered.stands_on);
    chains += seen.size() > 2 ? 1 : 0;
  }
  CHECK(pushed_solid > 15);
  CHECK(chains > 3);
  CHECK(lifted > 30);
}
