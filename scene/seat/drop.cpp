#include "scene/seat/drop.h"

#include "scene/seat/turns.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>
#include <map>
#include <set>

namespace lugline {

namespace {

using seat::Profile;
using seat::Stop;

/// A moving spin and one below: how high the part stands for each turn of the
/// one against the other.
struct Relation {
  Spin moving = spin_hand;
  Spin below = spin_fixed;
  Profile profile;
};

void add_stops(const DropQuestion& question, std::size_t m, std::size_t b,
               std::vector<Stop>& stops) {
  const Body& moving = question.moving[m];
  const Body& below = question.below[b];
  const double turned_rad = moving.turn_rad - below.turn_rad;
  for (std::size_t i = 0; i < moving.shape->rings().size(); ++i) {
    const SectorRing& ring_m = moving.shape->rings()[i];
    for (std::size_t j = 0; j < below.shape->rings().size(); ++j) {
      const SectorRing& ring_b = below.shape->rings()[j];
      if (!seat::radii_overlap(ring_m, ring_b)) {
        continue;
      }
      Stop stop;
      stop.height_m = (below.height_m + ring_b.high_m) - (moving.height_m + ring_m.low_m);
      if (question.from_m && stop.height_m > *question.from_m + contact_tolerance_m) {
        continue;
      }
      stop.contact = {m, i, b, j};
      stop.turns = seat::forbidden_turns(ring_m, moving.shape->symmetry(i), ring_b,
                                         below.shape->symmetry(j));
      for (auto& interval : stop.turns.intervals) {
        interval.from_rad -= turned_rad;
        interval.to_rad -= turned_rad;
      }
      stops.push_back(std::move(stop));
    }
  }
}

std::vector<Relation> relations_of(const DropQuestion& question) {
  std::map<std::pair<Spin, Spin>, std::vector<Stop>> stops;
  for (std::size_t m = 0; m < question.moving.size(); ++m) {
    assert(question.moving[m].spin != spin_fixed && "what moves turns with the hand, or is free");
    for (std::size_t b = 0; b < question.below.size(); ++b) {
      assert(question.below[b].spin != spin_hand && "what is below does not turn with the hand");
      add_stops(question, m, b, stops[{question.moving[m].spin, question.below[b].spin}]);
    }
  }
  std::vector<Relation> relations;
  for (auto& [spins, list] : stops) {
    relations.push_back({spins.first, spins.second, seat::profile_of(std::move(list))});
  }
  return relations;
}

FreeTurn rule_for(const DropQuestion& question, Spin spin) {
  for (const SpinRule& rule : question.spins) {
    if (rule.spin == spin) {
      return rule.rule;
    }
  }
  return FreeTurn::lined_up;
}

bool is_free(const DropQuestion& question, Spin spin) {
  return spin > spin_hand && rule_for(question, spin) != FreeTurn::as_it_is;
}

/// Constant profile with the rest and contact of one span.
Profile held_at(const RestSpan& span) {
  Profile profile;
  profile.spans.push_back(span);
  profile.spans.front().from_rad = 0;
  profile.spans.front().to_rad = profile.period_rad;
  return profile;
}

/// Works through the relations until what is left depends on the hand alone.
class Solver {
public:
  explicit Solver(const DropQuestion& question)
      : question_(question), open_(relations_of(question)) {
    result_ = held_at(RestSpan{});
    settle_constant();
    settle_off();
    settle_leaves();
    settle_the_rest();
  }

  [[nodiscard]] const Profile& result() const { return result_; }
  [[nodiscard]] bool exact() const { return exact_; }

private:
  void take(const Profile& profile) { result_ = seat::higher_of(result_, profile); }

  void settle_constant() {
    std::erase_if(open_, [&](const Relation& relation) {
      if (relation.profile.constant()) {
        take(relation.profile);
        return true;
      }
      return false;
    });
  }

  void settle_off() {
    std::erase_if(open_, [&](const Relation& relation) {
      const bool off = rule_for(question_, relation.moving) == FreeTurn::off ||
                       rule_for(question_, relation.below) == FreeTurn::off;
      if (off && (is_free(question_, relation.moving) || is_free(question_, relation.below))) {
        take(held_at(relation.profile.highest()));
        return true;
      }
      return false;
    });
  }

  [[nodiscard]] int uses(Spin spin) const {
    return static_cast<int>(std::ranges::count_if(open_, [&](const Relation& relation) {
      return relation.moving == spin || relation.below == spin;
    }));
  }

  /// A free spin that binds only one other can always be lined up with it,
  /// whatever the other's turn: its least height is what it gives.
  void settle_leaves() {
    for (bool found = true; found;) {
      found = false;
      for (std::size_t i = 0; i < open_.size(); ++i) {
        const Relation& relation = open_[i];
        const bool leaf = (is_free(question_, relation.moving) && uses(relation.moving) == 1) ||
                          (is_free(question_, relation.below) && uses(relation.below) == 1);
        if (leaf) {
          take(held_at(relation.profile.lowest()));
          open_.erase(open_.begin() + static_cast<std::ptrdiff_t>(i));
          found = true;
          break;
        }
      }
    }
  }

  /// What is left binds the hand to the place, or is a ring of free spins,
  /// which are then taken as they stand.
  void settle_the_rest() {
    for (const Relation& relation : open_) {
      const bool by_hand = relation.moving == spin_hand;
      if (is_free(question_, relation.moving) || is_free(question_, relation.below)) {
        exact_ = false;
      }
      take(by_hand ? relation.profile : held_at(relation.profile.at(0)));
    }
  }

  const DropQuestion& question_;
  std::vector<Relation> open_;
  Profile result_;
  bool exact_ = true;
};

/// Turns at which a profile leaves a part as low as it came, from one turn on to another.
struct Room {
  double from_rad = 0;
  double to_rad = 0;
};

/// The rooms of one period, each whole: one that runs over the period's end is not two.
std::vector<Room> rooms_in(const Profile& profile, bool off, std::optional<double> rest_m) {
  const std::optional<double> lowest_m = profile.lowest().rest_m;
  const std::optional<double> highest_m = profile.highest().rest_m;
  // What stands in the way lower down than the part comes is not in its way.
  const std::optional<double> aim_m = rest_m && (!lowest_m || *rest_m > *lowest_m)
                                          ? std::optional(*rest_m + contact_tolerance_m)
                                          : lowest_m;
  std::vector<Room> rooms;
  for (const RestSpan& span : profile.spans) {
    const bool fits =
        off ? span.rest_m == highest_m : !span.rest_m || (aim_m && *span.rest_m <= *aim_m);
    if (!fits) {
      continue;
    }
    if (!rooms.empty() && span.from_rad - rooms.back().to_rad < seat::angle_tolerance_rad) {
      rooms.back().to_rad = span.to_rad;
    } else {
      rooms.push_back({span.from_rad, span.to_rad});
    }
  }
  const double to_end_rad = profile.period_rad - rooms.back().to_rad;
  if (rooms.size() > 1 && rooms.front().from_rad + to_end_rad < seat::angle_tolerance_rad) {
    rooms.front().from_rad = rooms.back().from_rad - profile.period_rad;
    rooms.pop_back();
  }
  return rooms;
}

/// The middle of the nearest room; now itself where it is inside.
SpinTurn nearest_in(const Profile& profile, double now_rad, bool off,
                    std::optional<double> rest_m) {
  SpinTurn best;
  double best_off_rad = std::numeric_limits<double>::infinity();
  for (const Room& room : rooms_in(profile, off, rest_m)) {
    const double half_rad = (room.to_rad - room.from_rad) / 2;
    const double off_rad = std::remainder(room.from_rad + half_rad - now_rad, profile.period_rad);
    if (std::abs(off_rad) < std::abs(best_off_rad)) {
      best_off_rad = off_rad;
      best.play_rad = 2 * half_rad;
    }
  }
  const bool inside = std::abs(best_off_rad) < best.play_rad / 2 - seat::angle_tolerance_rad ||
                      best.play_rad > profile.period_rad - seat::angle_tolerance_rad;
  best.turn_rad = inside ? now_rad : now_rad + best_off_rad;
  return best;
}

/// Turns of all spins, found outward from those that are known.
class SpinFinder {
public:
  /// rest_m: where the part comes to rest at that turn; empty: nothing stops it.
  SpinFinder(const DropQuestion& question, double hand_turn_rad, std::optional<double> rest_m)
      : question_(question), relations_(relations_of(question)), rest_m_(rest_m) {
    known_[spin_fixed] = {spin_fixed, 0, 0};
    known_[spin_hand] = {spin_hand, hand_turn_rad, 0};
    for (Spin spin : spins()) {
      if (!is_free(question_, spin)) {
        known_[spin] = {spin, 0, 0};
      }
    }
    spread();
    for (Spin spin : spins()) {
      if (!known_.contains(spin)) {
        known_[spin] = {spin, 0, seat::whole_turn_rad};
        spread();
      }
    }
  }

  [[nodiscard]] double turn(Spin spin) const { return known_.at(spin).turn_rad; }
  [[nodiscard]] std::vector<SpinTurn> free_turns() const {
    std::vector<SpinTurn> turns;
    for (const auto& [spin, found] : known_) {
      if (spin > spin_hand) {
        turns.push_back(found);
      }
    }
    return turns;
  }

private:
  [[nodiscard]] std::set<Spin> spins() const {
    std::set<Spin> all;
    for (const auto* bodies : {&question_.moving, &question_.below}) {
      for (const Body& body : *bodies) {
        if (body.spin > spin_hand) {
          all.insert(body.spin);
        }
      }
    }
    return all;
  }

  void spread() {
    for (bool found = true; found;) {
      found = false;
      for (const Relation& relation : relations_) {
        if (relation.profile.constant()) {
          continue;
        }
        const bool moving_known = known_.contains(relation.moving);
        if (moving_known == known_.contains(relation.below)) {
          continue;
        }
        found = true;
        const Spin seeks = moving_known ? relation.below : relation.moving;
        const bool off = rule_for(question_, seeks) == FreeTurn::off;
        SpinTurn turn;
        if (moving_known) {
          // The relation is in (moving - below): below = moving - it.
          const double moving_rad = turn_of(relation.moving);
          turn = nearest_in(relation.profile, moving_rad, off, rest_m_);
          turn.turn_rad = moving_rad - turn.turn_rad;
        } else {
          const double below_rad = turn_of(relation.below);
          turn = nearest_in(relation.profile, -below_rad, off, rest_m_);
          turn.turn_rad += below_rad;
        }
        turn.spin = seeks;
        known_[seeks] = turn;
      }
    }
  }

  [[nodiscard]] double turn_of(Spin spin) const { return known_.at(spin).turn_rad; }

  const DropQuestion& question_;
  std::vector<Relation> relations_;
  std::optional<double> rest_m_;
  std::map<Spin, SpinTurn> known_;
};

} // namespace

RestSpan DropAnswer::at(double turn_rad) const {
  assert(!spans.empty());
  const double from_rad = spans.front().from_rad;
  const double turn = from_rad + seat::reduced(turn_rad - from_rad, seat::whole_turn_rad);
  auto after = std::ranges::upper_bound(spans, turn, {}, &RestSpan::from_rad);
  return after == spans.begin() ? spans.back() : *std::prev(after);
}

RestSpan DropAnswer::lowest() const {
  assert(!spans.empty());
  return *std::ranges::min_element(spans, [](const RestSpan& a, const RestSpan& b) {
    return (!a.rest_m && b.rest_m) || (a.rest_m && b.rest_m && *a.rest_m < *b.rest_m);
  });
}

DropAnswer drop(const DropQuestion& question) {
  const Solver solver(question);
  DropAnswer answer;
  answer.exact = solver.exact();
  const Profile& profile = solver.result();
  const int repeats = static_cast<int>(std::lround(seat::whole_turn_rad / profile.period_rad));
  if (profile.constant()) {
    answer.spans.push_back(profile.spans.front());
    answer.spans.front().from_rad = 0;
    answer.spans.front().to_rad = seat::whole_turn_rad;
    return answer;
  }
  for (int i = 0; i < repeats; ++i) {
    for (RestSpan span : profile.spans) {
      span.from_rad += profile.period_rad * i;
      span.to_rad += profile.period_rad * i;
      answer.spans.push_back(span);
    }
  }
  return answer;
}

std::vector<SpinTurn> turns_after(const DropQuestion& question, double hand_turn_rad) {
  return SpinFinder(question, hand_turn_rad, drop(question).at(hand_turn_rad).rest_m).free_turns();
}

std::vector<Contact> contacts_at(const DropQuestion& question, double hand_turn_rad, double rest_m,
                                 double tolerance_m) {
  const SpinFinder finder(question, hand_turn_rad, rest_m);
  std::vector<Contact> contacts;
  for (std::size_t m = 0; m < question.moving.size(); ++m) {
    for (std::size_t b = 0; b < question.below.size(); ++b) {
      std::vector<Stop> stops;
      add_stops(question, m, b, stops);
      const double turn_rad =
          finder.turn(question.moving[m].spin) - finder.turn(question.below[b].spin);
      for (const Stop& stop : stops) {
        if (std::abs(stop.height_m - rest_m) <= tolerance_m && stop.turns.forbids(turn_rad)) {
          contacts.push_back(stop.contact);
        }
      }
    }
  }
  return contacts;
}

Travel rise(const std::vector<Body>& moving, const std::vector<Body>& above) {
  Travel travel;
  travel.up_m = std::numeric_limits<double>::infinity();
  for (std::size_t m = 0; m < moving.size(); ++m) {
    for (std::size_t a = 0; a < above.size(); ++a) {
      for (std::size_t i = 0; i < moving[m].shape->rings().size(); ++i) {
        for (std::size_t j = 0; j < above[a].shape->rings().size(); ++j) {
          const SectorRing& ring_m = moving[m].shape->rings()[i];
          const SectorRing& ring_a = above[a].shape->rings()[j];
          const double gap_m =
              (above[a].height_m + ring_a.low_m) - (moving[m].height_m + ring_m.high_m);
          if (gap_m < -contact_tolerance_m || gap_m >= travel.up_m ||
              !seat::radii_overlap(ring_m, ring_a)) {
            continue;
          }
          const auto turns = seat::forbidden_turns(ring_m, moving[m].shape->symmetry(i), ring_a,
                                                   above[a].shape->symmetry(j));
          if (turns.forbids(moving[m].turn_rad - above[a].turn_rad)) {
            travel.up_m = std::max(gap_m, 0.0);
            travel.contact = Contact{m, i, a, j};
          }
        }
      }
    }
  }
  return travel;
}

} // namespace lugline
