#include "scene/recipe/band.h"
#include "scene/recipe/kinds.h"

#include <cmath>
#include <numbers>

namespace lugline {

namespace {

constexpr double pi = std::numbers::pi;

struct Band {
  double applied_m = 0; ///< bore on the drum
  double relaxed_m = 0;
  double spread_m = 0;
  double width_m = 0;
  double thickness_m = 0; ///< strap and lining
  double lining_m = 0;
  double wrap_rad = 0; ///< applied
  double anchor_rad = 0;
  double pin_m = 0;
  double post_m = 0;       ///< how wide an ear's posts and bars are
  double ear_height_m = 0; ///< off the strap
  double lean_down_m = 0;
  double lean_in_m = 0;
};

Band read_band(FigureReader& f) {
  Band b;
  b.applied_m = f.length("applied_bore");
  b.relaxed_m = f.length("relaxed_bore");
  b.spread_m = f.length("spread_bore");
  b.width_m = f.length("width");
  b.thickness_m = f.length("thickness");
  b.lining_m = f.length("lining");
  b.wrap_rad = f.angle("wrap");
  b.anchor_rad = f.angle("anchor_at");
  b.pin_m = f.length("pin");
  b.post_m = f.length("ear_post");
  b.ear_height_m = f.length("ear_height");
  b.lean_down_m = f.length("leaning_down");
  b.lean_in_m = f.length("leaning_in");
  return b;
}

void check_band(FigureReader& f, const Band& b) {
  f.must_be_less("lining", b.lining_m, "thickness", b.thickness_m);
  if (b.relaxed_m < b.applied_m || b.spread_m < b.relaxed_m) {
    f.impossible(b.relaxed_m < b.applied_m ? "relaxed_bore" : "spread_bore",
                 "is less than the bore before it: applied " + in_mm(b.applied_m) + ", relaxed " +
                     in_mm(b.relaxed_m) + ", spread " + in_mm(b.spread_m));
  }
  if (!(b.wrap_rad > pi / 2) || b.wrap_rad >= 2 * pi) {
    f.impossible("wrap", in_brackets(print_angle(b.wrap_rad)) +
                             " is not between a quarter turn and a whole one");
  }
  if (b.pin_m * 1.06 + 2 * b.post_m >= b.width_m) {
    f.impossible("ear_post", in_brackets(in_mm(b.post_m)) + " leaves no hole for a pin of " +
                                 in_mm(b.pin_m) + " in a band of " + in_mm(b.width_m));
  }
  const double gap_m = (2 * pi - b.wrap_rad) * b.applied_m / 2;
  if (f.ok() && gap_m < 4 * b.post_m) {
    f.impossible("wrap", in_brackets(print_angle(b.wrap_rad)) + " leaves no room between the ears");
  }
}

/// The band at a bore, hung on its anchor ear.
class Hung {
public:
  Hung(const Band& band, double bore_m) : b_(band), bore_m_(bore_m) {
    const double scale = band.applied_m / bore_m;
    hole_m_ = band.pin_m * 1.06;
    ear_m_ = hole_m_ + 2 * band.post_m;
    // Where the ear's outer side meets the strap, so that the strap ends with it.
    const double half_ear_rad = std::asin(ear_m_ / (bore_m + 2 * band.thickness_m));
    from_rad_ = band.anchor_rad - half_ear_rad;
    to_rad_ = from_rad_ + band.wrap_rad * scale;
    hook_rad_ = to_rad_ - half_ear_rad;
  }

  [[nodiscard]] double from_rad() const { return from_rad_; }
  [[nodiscard]] double to_rad() const { return to_rad_; }
  [[nodiscard]] double hook_rad() const { return hook_rad_; }
  [[nodiscard]] double strap_outside_m() const { return bore_m_ + 2 * b_.thickness_m; }
  [[nodiscard]] double hole_m() const { return hole_m_; }

  /// A piece of the strap with its lining, lowered and moved inwards.
  void add_strap(Solid& solid, double from_rad, double to_rad, double down_m, double in_m) const {
    const std::vector<Sector> sectors{{{from_rad, 0}, {to_rad, 0}}};
    const double bore_m = bore_m_ - 2 * in_m;
    SectorRing lining = sectors_between(bore_m, bore_m + 2 * b_.lining_m, -down_m,
                                        b_.width_m - down_m, "lining", sectors);
    lining.material = "friction lining";
    solid.rings.push_back(lining);
    solid.rings.push_back(sectors_between(bore_m + 2 * b_.lining_m, bore_m + 2 * b_.thickness_m,
                                          -down_m, b_.width_m - down_m, "strap", sectors));
  }

  /// The anchor's closed loop: a frame round the pin.
  void add_loop(Solid& solid) const {
    const double a = b_.anchor_rad;
    const double middle_m = b_.width_m / 2;
    const double low_m = middle_m - ear_m_ / 2;
    const double high_m = middle_m + ear_m_ / 2;
    add_ear(solid, low_m, low_m + b_.post_m, "loop", {parallel_sector(a, ear_m_)}, 0, 0);
    add_ear(solid, low_m + b_.post_m, high_m - b_.post_m, "loop",
            {{{a, -ear_m_ / 2}, {a, -hole_m_ / 2}}, {{a, hole_m_ / 2}, {a, ear_m_ / 2}}}, 0, 0);
    add_ear(solid, high_m - b_.post_m, high_m, "loop", {parallel_sector(a, ear_m_)}, 0, 0);
  }

  /// The apply end's open hook: a post and two short jaws, open towards the gap.
  void add_hook(Solid& solid, double down_m, double in_m) const {
    const double a = hook_rad_;
    const double middle_m = b_.width_m / 2;
    const double low_m = middle_m - ear_m_ / 2;
    const double high_m = middle_m + ear_m_ / 2;
    const Sector post{{a, -ear_m_ / 2}, {a, -hole_m_ / 2}};
    const Sector jaw{{a, -ear_m_ / 2}, {a, hole_m_ / 6}};
    add_ear(solid, low_m, low_m + b_.post_m, "hook", {jaw}, down_m, in_m);
    add_ear(solid, low_m + b_.post_m, high_m - b_.post_m, "hook", {post}, down_m, in_m);
    add_ear(solid, high_m - b_.post_m, high_m, "hook", {jaw}, down_m, in_m);
  }

private:
  void add_ear(Solid& solid, double low_m, double high_m, const char* feature,
               std::vector<Sector> sectors, double down_m, double in_m) const {
    const double outside_m = strap_outside_m() - 2 * in_m;
    solid.rings.push_back(sectors_between(outside_m, outside_m + 2 * b_.ear_height_m,
                                          low_m - down_m, high_m - down_m, feature,
                                          std::move(sectors)));
  }

  const Band& b_;
  double bore_m_;
  double hole_m_ = 0;
  double ear_m_ = 0;
  double from_rad_ = 0;
  double to_rad_ = 0;
  double hook_rad_ = 0;
};

Solid level_band(const Band& band, double bore_m) {
  const Hung hung(band, bore_m);
  Solid solid;
  hung.add_strap(solid, hung.from_rad(), hung.to_rad(), 0, 0);
  hung.add_loop(solid);
  hung.add_hook(solid, 0, 0);
  return solid;
}

/// Still on its anchor pin, and fallen on the other side: in steps, each of
/// which is level.
Solid leaning_band(const Band& band) {
  constexpr int steps = 12;
  const Hung hung(band, band.relaxed_m);
  const auto fallen = [&](double angle_rad) {
    return (1 - std::cos(angle_rad - band.anchor_rad)) / 2;
  };
  Solid solid;
  const double span_rad = hung.to_rad() - hung.from_rad();
  for (int k = 0; k < steps; ++k) {
    const double from = hung.from_rad() + span_rad * k / steps;
    const double to = hung.from_rad() + span_rad * (k + 1) / steps;
    const double share = k == 0 ? 0 : fallen((from + to) / 2);
    hung.add_strap(solid, from, to, band.lean_down_m * share, band.lean_in_m * share);
  }
  hung.add_loop(solid);
  const double share = fallen(hung.hook_rad());
  hung.add_hook(solid, band.lean_down_m * share, band.lean_in_m * share);
  return solid;
}

} // namespace

void make_band(FigureReader& f, const MeshOptions& options, MadePart& part) {
  const Band b = read_band(f);
  const std::string loop_fits = f.text_or("loop_fits", "");
  const std::string hook_fits = f.text_or("hook_fits", "");
  if (!f.ok()) {
    return;
  }
  check_band(f, b);
  if (!f.ok()) {
    return;
  }
  make_band_of({level_band(b, b.spread_m), level_band(b, b.relaxed_m), leaning_band(b)}, b.width_m,
               options, part);
  Component& component = part.component;
  const Hung hung(b, b.relaxed_m);
  const double strap_m = hung.strap_outside_m() / 2;
  const auto ear_key = [&](const char* id, const std::string& fits, double angle_rad) {
    component.keys.push_back({id, fits, angle_rad, strap_m, strap_m + b.ear_height_m,
                              b.width_m / 2 - hung.hole_m() / 2, b.width_m / 2 + hung.hole_m() / 2,
                              hung.hole_m()});
  };
  ear_key("loop", loop_fits, b.anchor_rad);
  ear_key("hook", hook_fits, hung.hook_rad());
  component.marks.push_back({"the closed loop goes on the anchor, the open hook to the servo",
                             strap_m + b.ear_height_m, b.anchor_rad, b.width_m / 2});
}

} // namespace lugline
