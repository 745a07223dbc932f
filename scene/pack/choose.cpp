#include "scene/pack/choose.h"

#include "scene/pack/choose_half.h"
#include "scene/quantity/quantity.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <tuple>

namespace lugline {

namespace {

using choosing::Half;
using choosing::Shop;
using choosing::Way;

/// How a combination ranks: what it misses the middle by, then what it costs.
struct Ranked {
  std::int64_t off_steps = 0; ///< from the middle, in steps of a tenth of a micrometre
  Way way;
  std::int64_t off_half_nm = 0; ///< signed
};

std::int64_t steps_of(std::int64_t off_half_nm) {
  // Rounded, so that figures that differ by a rounding rank by what comes next.
  return (std::abs(off_half_nm) + 100) / 200;
}

bool before(const Ranked& a, const Ranked& b) {
  return std::tie(a.off_steps, a.way.changed, a.way.price, a.way.picks) <
         std::tie(b.off_steps, b.way.changed, b.way.price, b.way.picks);
}

/// The best few, best first.
class Best {
public:
  explicit Best(std::size_t most) : most_(most) {}

  [[nodiscard]] bool full() const { return kept_.size() == most_; }
  /// Nothing so far from the middle can enter any more.
  [[nodiscard]] bool closed_to(std::int64_t off_steps) const {
    return full() && off_steps > kept_.back().off_steps;
  }
  void offer(const Half& a, const Half& b, std::int64_t off_half_nm, const Shop& shop) {
    const std::int64_t steps = steps_of(off_half_nm);
    const std::size_t changed = a.way.changed + b.way.changed;
    const std::int64_t price = a.way.price + b.way.price;
    if (full() &&
        std::tie(steps, changed, price) >
            std::tie(kept_.back().off_steps, kept_.back().way.changed, kept_.back().way.price)) {
      return;
    }
    if (!shop.has(a.usage, b.usage)) {
      return;
    }
    Ranked ranked{steps, choosing::both(a.way, b.way), off_half_nm};
    const auto at = std::ranges::upper_bound(kept_, ranked, before);
    if (at == kept_.end() && full()) {
      return;
    }
    kept_.insert(at, std::move(ranked));
    if (kept_.size() > most_) {
      kept_.pop_back();
    }
  }
  [[nodiscard]] const std::vector<Ranked>& kept() const { return kept_; }

private:
  std::size_t most_;
  std::vector<Ranked> kept_;
};

/// All of `b` that may enter beside one of `a`, from the nearest outwards.
void meet(const Half& a, const std::vector<Half>& b, std::int64_t wanted_half_nm, const Shop& shop,
          Best& best) {
  const auto off = [&](const Half& other) {
    return wanted_half_nm - 2 * (a.way.sum_nm + other.way.sum_nm);
  };
  auto up = std::ranges::partition_point(b, [&](const Half& other) { return off(other) > 0; });
  auto down = up;
  for (;;) {
    const bool can_go_down = down != b.begin() && !best.closed_to(steps_of(off(*std::prev(down))));
    const bool can_go_up = up != b.end() && !best.closed_to(steps_of(off(*up)));
    if (!can_go_down && !can_go_up) {
      return;
    }
    if (can_go_down && (!can_go_up || off(*std::prev(down)) < -off(*up))) {
      --down;
      best.offer(a, *down, off(*down), shop);
    } else {
      best.offer(a, *up, off(*up), shop);
      ++up;
    }
  }
}

std::string mm(double length_m) {
  return print_length(length_m, LengthUnit::millimetre);
}

std::string name_of(const SelectivePart& part) {
  return part.label.empty() ? part.id : part.label;
}

std::string fitting_words(const std::vector<SelectivePart>& parts, const SelectiveChoice& choice) {
  std::string words;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (choosing::nm(choice.thickness_m[i]) != choosing::nm(parts[i].fitted_m)) {
      words += (words.empty() ? "" : ", ") + name_of(parts[i]) + " " + mm(choice.thickness_m[i]);
    }
  }
  return words;
}

void find_needed(const ChoiceQuestion& question, ChoiceAnswer& answer) {
  constexpr double thinnest_m = 0.3e-3; // no plate, ring or washer is thinner
  for (const SelectivePart& part : question.parts) {
    NeededPart needed{part.id};
    const double middle_m = (question.low_m + question.high_m) / 2;
    needed.thickness_m = part.fitted_m + question.clearance_m - middle_m;
    needed.least_m = part.fitted_m + question.clearance_m - question.high_m;
    needed.most_m = part.fitted_m + question.clearance_m - question.low_m;
    if (needed.thickness_m >= thinnest_m) {
      answer.needed.push_back(std::move(needed));
    }
  }
}

void word(const ChoiceQuestion& question, ChoiceAnswer& answer) {
  const SelectiveChoice& best = answer.choices.front();
  const std::string fit = fitting_words(question.parts, best);
  const std::string gives = mm(best.clearance_m);
  if (answer.any_inside) {
    answer.words = fit.empty()
                       ? "Leave what is fitted: nothing that can be had comes nearer the middle "
                         "than its " +
                             gives + "."
                       : "Fit " + fit + ": it gives " + gives + ", " +
                             mm(std::abs(best.off_middle_m)) + " from the middle.";
    return;
  }
  answer.words = "Nothing that can be had lands inside. The nearest" +
                 (fit.empty() ? ", as fitted," : ", " + fit + ",") + " gives " + gives + ", " +
                 mm(answer.outside_by_m) + (best.off_middle_m > 0 ? " too loose." : " too tight.");
  if (answer.needed.empty()) {
    answer.words += " No one part would do: look for what is missing, doubled or worn.";
    return;
  }
  const NeededPart& needed = answer.needed.front();
  const auto part = std::ranges::find(question.parts, needed.id, &SelectivePart::id);
  answer.words += " It would take " + name_of(*part) + " " + mm(needed.thickness_m) + " (" +
                  mm(std::max(needed.least_m, 0.0)) + " to " + mm(needed.most_m) +
                  " lands inside).";
}

std::string why_no_question(const ChoiceQuestion& question) {
  constexpr double most_m = 10;
  const auto sane = [](double length_m) { return std::abs(length_m) < most_m; };
  bool sound = sane(question.clearance_m) && sane(question.low_m) && sane(question.high_m);
  bool any = false;
  for (const SelectivePart& part : question.parts) {
    sound = sound && sane(part.fitted_m) && std::ranges::all_of(part.options_m, sane);
    any = any || !part.options_m.empty();
  }
  if (!sound) {
    return "A figure among them is no figure of a pack.";
  }
  if (question.low_m > question.high_m) {
    return "The limits stand the wrong way round.";
  }
  return any ? "" : "There is nothing to choose: no part of it comes in several thicknesses.";
}

} // namespace

ChoiceAnswer choose_parts(const ChoiceQuestion& question) {
  ChoiceAnswer answer;
  answer.why_none = why_no_question(question);
  if (!answer.why_none.empty()) {
    return answer;
  }
  const auto halves = choosing::halves_of(question.parts, question.most);
  if (!halves) {
    answer.why_none = "There are too many combinations to try them all.";
    return answer;
  }
  const std::int64_t wanted_half_nm = 2 * choosing::nm(question.clearance_m) -
                                      choosing::nm(question.low_m) - choosing::nm(question.high_m);
  Best best(std::max<std::size_t>(question.most, 1));
  for (const Half& half : halves->a) {
    meet(half, halves->b, wanted_half_nm, halves->shop, best);
  }
  constexpr double same_m = 1e-7;
  for (const Ranked& ranked : best.kept()) {
    SelectiveChoice choice;
    for (std::size_t i = 0; i < question.parts.size(); ++i) {
      choice.thickness_m.push_back(halves->shop.thickness_m(i, ranked.way.picks));
    }
    choice.off_middle_m = static_cast<double>(ranked.off_half_nm) * 0.5e-9;
    choice.clearance_m = choice.off_middle_m + (question.low_m + question.high_m) / 2;
    choice.inside = choice.clearance_m >= question.low_m - same_m &&
                    choice.clearance_m <= question.high_m + same_m;
    choice.changed = ranked.way.changed;
    choice.price = static_cast<double>(ranked.way.price) / 100;
    answer.any_inside = answer.any_inside || choice.inside;
    answer.choices.push_back(std::move(choice));
  }
  assert(!answer.choices.empty()); // what is fitted may always stay
  if (!answer.any_inside) {
    const double clearance_m = answer.choices.front().clearance_m;
    answer.outside_by_m = std::max(question.low_m - clearance_m, clearance_m - question.high_m);
    find_needed(question, answer);
  }
  word(question, answer);
  return answer;
}

std::vector<SelectiveChoice> choose(const std::vector<SelectivePart>& parts, double clearance_m,
                                    double low_m, double high_m, std::size_t most) {
  return choose_parts({parts, clearance_m, low_m, high_m, most}).choices;
}

} // namespace lugline
