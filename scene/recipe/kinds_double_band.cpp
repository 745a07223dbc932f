// A band of two wraps: one strap in the middle, from the servo's ear once round, and
// from there two straps beside it once more round to the anchor's ear.

#include "scene/recipe/band.h"
#include "scene/recipe/kinds.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lugline {

namespace {

constexpr double pi = std::numbers::pi;

struct DoubleBand {
  double applied_m = 0; ///< bore on the drum
  double relaxed_m = 0;
  double spread_m = 0;
  double width_m = 0;
  double middle_m = 0; ///< width of the middle strap
  double split_m = 0;  ///< between two straps
  double thickness_m = 0;
  double lining_m = 0;
  double wrap_rad = 0; ///< applied, both wraps
  double anchor_rad = 0;
  double short_m = 0; ///< the anchor ear's height off the strap
  double tall_m = 0;  ///< the servo ear's
  double ear_m = 0;   ///< how long both are round the band
  double notch_m = 0; ///< in the tall ear's top
  double lean_down_m = 0;
  double lean_in_m = 0;
};

DoubleBand read_band(FigureReader& f) {
  DoubleBand b;
  b.applied_m = f.length("applied_bore");
  b.relaxed_m = f.length("relaxed_bore");
  b.spread_m = f.length("spread_bore");
  b.width_m = f.length("width");
  b.middle_m = f.length("middle_width");
  b.split_m = f.length("split");
  b.thickness_m = f.length("thickness");
  b.lining_m = f.length("lining");
  b.wrap_rad = f.angle("wrap");
  b.anchor_rad = f.angle("anchor_at");
  b.short_m = f.length("anchor_ear");
  b.tall_m = f.length("servo_ear");
  b.ear_m = f.length("ear_length");
  b.notch_m = f.length("ear_notch");
  b.lean_down_m = f.length("leaning_down");
  b.lean_in_m = f.length("leaning_in");
  return b;
}

void check_band(FigureReader& f, const DoubleBand& b) {
  f.must_be_less("lining", b.lining_m, "thickness", b.thickness_m);
  if (b.relaxed_m < b.applied_m || b.spread_m < b.relaxed_m) {
    f.impossible(b.relaxed_m < b.applied_m ? "relaxed_bore" : "spread_bore",
                 "is less than the bore before it: applied " + in_mm(b.applied_m) + ", relaxed " +
                     in_mm(b.relaxed_m) + ", spread " + in_mm(b.spread_m));
  }
  if (!(b.wrap_rad > 2.5 * pi) || b.wrap_rad >= 4 * pi) {
    f.impossible("wrap", in_brackets(print_angle(b.wrap_rad)) +
                             " is not between a turn and a quarter and two turns");
  }
  if (b.middle_m + 4 * b.split_m >= b.width_m) {
    f.impossible("middle_width", in_brackets(in_mm(b.middle_m)) +
                                     " and two splits leave no outer straps in a band of " +
                                     in_mm(b.width_m));
  }
  f.must_be_less("anchor_ear", b.short_m, "servo_ear", b.tall_m);
  f.must_be_less("ear_notch", b.notch_m, "half the ear_length", b.ear_m / 2);
  // Each wrap's gap holds its ear, and the bridge between the wraps.
  const double gap_m = (4 * pi - b.wrap_rad) / 2 * b.applied_m / 2;
  if (f.ok() && gap_m < 1.5 * b.ear_m) {
    f.impossible("wrap", in_brackets(print_angle(b.wrap_rad)) + " leaves no room between the ears");
  }
}

/// A strap's heights.
struct Strap {
  double low_m = 0;
  double high_m = 0;
};

/// The band at a bore, hung on its anchor ear.
class Hung {
public:
  Hung(const DoubleBand& band, double bore_m) : b_(band), bore_m_(bore_m) {
    const double scale = band.applied_m / bore_m;
    half_ear_rad_ = std::asin(band.ear_m / (bore_m + 2 * band.thickness_m));
    // The outer straps end at the anchor's ear and begin one wrap before it, where
    // the bridge joins them to the middle one.
    outer_to_rad_ = band.anchor_rad + half_ear_rad_;
    outer_from_rad_ = outer_to_rad_ - band.wrap_rad / 2 * scale;
    bridge_rad_ = 2 * half_ear_rad_;
    middle_to_rad_ = outer_from_rad_ + bridge_rad_;
    middle_from_rad_ = middle_to_rad_ - band.wrap_rad / 2 * scale;
  }

  [[nodiscard]] double servo_rad() const { return middle_from_rad_ + half_ear_rad_; }
  [[nodiscard]] double strap_outside_m() const { return bore_m_ + 2 * b_.thickness_m; }

  /// All of it, level, or still on its anchor and fallen on the other side. It leans
  /// in steps of its angle, the same for every strap, each of which is level.
  void add_to(Solid& solid, bool leaning) const {
    const double outer_m = (b_.width_m - b_.middle_m) / 2 - b_.split_m;
    const Strap low{0, outer_m};
    const Strap middle{outer_m + b_.split_m, outer_m + b_.split_m + b_.middle_m};
    const Strap high{b_.width_m - outer_m, b_.width_m};
    add_strap(solid, low, outer_from_rad_, outer_to_rad_, leaning);
    add_strap(solid, high, outer_from_rad_, outer_to_rad_, leaning);
    add_strap(solid, middle, middle_from_rad_, middle_to_rad_, leaning);
    add_strap(solid, {low.high_m, middle.low_m}, outer_from_rad_, middle_to_rad_, leaning);
    add_strap(solid, {middle.high_m, high.low_m}, outer_from_rad_, middle_to_rad_, leaning);
    const double anchor = leaning ? share_of(b_.anchor_rad) : 0;
    for (const Strap& strap : {low, high}) {
      add_ear(solid, strap, "anchor ear", {parallel_sector(b_.anchor_rad, b_.ear_m)}, 0, b_.short_m,
              anchor);
    }
    const double servo = leaning ? share_of(servo_rad()) : 0;
    add_ear(solid, middle, "servo ear", {parallel_sector(servo_rad(), b_.ear_m)}, 0, b_.short_m,
            servo);
    add_ear(solid, middle, "servo ear",
            {{{servo_rad(), -b_.ear_m / 2}, {servo_rad(), -b_.notch_m / 2}},
             {{servo_rad(), b_.notch_m / 2}, {servo_rad(), b_.ear_m / 2}}},
            b_.short_m, b_.tall_m - b_.short_m, servo);
  }

private:
  static constexpr int steps = 12; ///< a turn; the anchor stands in the middle of one
  static constexpr double step_rad = 2 * pi / steps;

  /// How far a step has fallen: nothing at the anchor, all of it across from it.
  [[nodiscard]] double fallen(long step) const {
    return (1 - std::cos(static_cast<double>(step) * step_rad)) / 2;
  }
  [[nodiscard]] long step_at(double angle_rad) const {
    return std::lround((angle_rad - b_.anchor_rad) / step_rad);
  }
  /// Of an ear: that of the less fallen of the steps that it stands on.
  [[nodiscard]] double share_of(double ear_rad) const {
    return std::min(fallen(step_at(ear_rad - half_ear_rad_ * 0.999)),
                    fallen(step_at(ear_rad + half_ear_rad_ * 0.999)));
  }

  void add_piece(Solid& solid, const Strap& strap, double from_rad, double to_rad,
                 double share) const {
    const double down_m = b_.lean_down_m * share;
    const double bore_m = bore_m_ - 2 * b_.lean_in_m * share;
    const std::vector<Sector> sectors{{{from_rad, 0}, {to_rad, 0}}};
    SectorRing lining = sectors_between(bore_m, bore_m + 2 * b_.lining_m, strap.low_m - down_m,
                                        strap.high_m - down_m, "lining", sectors);
    lining.material = "friction lining";
    solid.rings.push_back(lining);
    solid.rings.push_back(sectors_between(bore_m + 2 * b_.lining_m, bore_m + 2 * b_.thickness_m,
                                          strap.low_m - down_m, strap.high_m - down_m, "strap",
                                          sectors));
  }

  void add_strap(Solid& solid, const Strap& strap, double from_rad, double to_rad,
                 bool leaning) const {
    if (!leaning) {
      add_piece(solid, strap, from_rad, to_rad, 0);
      return;
    }
    for (long k = step_at(from_rad); k <= step_at(to_rad); ++k) {
      const double middle_rad = b_.anchor_rad + static_cast<double>(k) * step_rad;
      const double from = std::max(from_rad, middle_rad - step_rad / 2);
      const double to = std::min(to_rad, middle_rad + step_rad / 2);
      if (to - from > 1e-6) {
        add_piece(solid, strap, from, to, fallen(k));
      }
    }
  }

  void add_ear(Solid& solid, const Strap& strap, const char* feature, std::vector<Sector> sectors,
               double above_m, double height_m, double share) const {
    const double down_m = b_.lean_down_m * share;
    const double outside_m = strap_outside_m() - 2 * b_.lean_in_m * share + 2 * above_m;
    solid.rings.push_back(sectors_between(outside_m, outside_m + 2 * height_m, strap.low_m - down_m,
                                          strap.high_m - down_m, feature, std::move(sectors)));
  }

  const DoubleBand& b_;
  double bore_m_;
  double half_ear_rad_ = 0;
  double outer_from_rad_ = 0;
  double outer_to_rad_ = 0;
  double middle_from_rad_ = 0;
  double middle_to_rad_ = 0;
  double bridge_rad_ = 0;
};

Solid band_at(const DoubleBand& band, double bore_m, bool leaning) {
  Solid solid;
  Hung(band, bore_m).add_to(solid, leaning);
  return solid;
}

} // namespace

void make_double_wrap_band(FigureReader& f, const MeshOptions& options, MadePart& part) {
  const DoubleBand b = read_band(f);
  const std::string anchor_fits = f.text_or("anchor_ear_fits", "");
  const std::string servo_fits = f.text_or("servo_ear_fits", "");
  if (!f.ok()) {
    return;
  }
  check_band(f, b);
  if (!f.ok()) {
    return;
  }
  make_band_of({band_at(b, b.spread_m, false), band_at(b, b.relaxed_m, false),
                band_at(b, b.relaxed_m, true)},
               b.width_m, options, part);
  Component& component = part.component;
  const Hung hung(b, b.relaxed_m);
  const double strap_m = hung.strap_outside_m() / 2;
  const double middle_low_m = (b.width_m - b.middle_m) / 2;
  component.keys.push_back({"anchor ear", anchor_fits, b.anchor_rad, strap_m, strap_m + b.short_m,
                            0, b.width_m, b.ear_m});
  component.keys.push_back({"servo ear", servo_fits, hung.servo_rad(), strap_m, strap_m + b.tall_m,
                            middle_low_m, b.width_m - middle_low_m, b.ear_m});
  component.marks.push_back({"the tall ear goes to the servo, the short ear to the anchor",
                             strap_m + b.tall_m, hung.servo_rad(), b.width_m / 2});
}

} // namespace lugline
