#include "scene/load/thickness.h"

#include "scene/load/figures.h"

#include <fmt/format.h>

#include <cmath>

namespace lugline {

namespace {

/// No plate, ring or washer of such a unit is thinner or thicker than this.
constexpr double thinnest_plate_m = 0.1e-3;
constexpr double thickest_plate_m = 25e-3;
/// A slip of unit is a factor of 25.4; figures of one part differ by less than this.
constexpr double slip_within = 0.10;
/// A stated thickness this many times the model's is worth a question.
constexpr double odd_factor = 3;
constexpr double same_m = 1e-7;

bool is_plate(ComponentKind kind) {
  switch (kind) {
  case ComponentKind::steel:
  case ComponentKind::friction:
  case ComponentKind::wave_plate:
  case ComponentKind::apply_plate:
  case ComponentKind::backing_plate:
  case ComponentKind::snap_ring:
  case ComponentKind::thrust_washer:
  case ComponentKind::thrust_bearing:
  case ComponentKind::gasket:
    return true;
  default:
    return false;
  }
}

std::string mm(double length_m) {
  return print_length(length_m, LengthUnit::millimetre);
}

bool near(double a, double b) {
  return std::abs(a / b - 1) < slip_within;
}

/// What a figure that is 25.4 times off was meant to be; empty where it is not.
std::string slip_of_unit(double written_m, double model_m) {
  const double inch_in_mm = inch_m / millimetre_m;
  if (near(written_m * inch_in_mm, model_m)) {
    return fmt::format("inches written as mm? \"{:.4g} in\"", written_m / millimetre_m);
  }
  if (near(written_m / inch_in_mm, model_m)) {
    return fmt::format("millimetres written as inches? \"{:.4g} mm\"", written_m / inch_m);
  }
  return {};
}

/// One stated thickness beside the model's. False: it was complained of.
bool judge_figure(const std::string& what, const char* called, const SourcePlace& at,
                  double written_m, ComponentKind kind, double model_m, Findings& findings) {
  const std::string says = what + ": " + called + " ";
  if (const auto slip = slip_in_thickness(written_m, kind, model_m)) {
    findings.complain(at, says + slip->words, slip->hint);
    return false;
  }
  if (is_far_off(written_m, model_m)) {
    findings.ask(at, says + mm(written_m) + ", and its model has " + mm(model_m) +
                         ": is it the right model?");
  }
  return true;
}

bool judge_options(const ComponentLine& line, ComponentKind kind, double model_m,
                   double thickness_m, Findings& findings) {
  bool sound = true;
  double last_m = -1;
  bool has_own = line.options_m.empty();
  for (const Written<double>& option : line.options_m) {
    sound = judge_figure(line.what(), "option", option.at, option.value, kind, model_m, findings) &&
            sound;
    if (option.value <= last_m) {
      findings.complain(option.at,
                        line.what() + ": option " + mm(option.value) + " does not rise above " +
                            mm(last_m),
                        "options stand once each, by rising thickness");
      sound = false;
    }
    last_m = option.value;
    has_own = has_own || std::abs(option.value - thickness_m) < same_m;
  }
  if (sound && !has_own) {
    findings.ask(line.at.of("options"), line.what() + ": its own thickness, " + mm(thickness_m) +
                                            ", is not among its options");
  }
  return sound;
}

} // namespace

std::optional<ThicknessSlip> slip_in_thickness(double thickness_m, ComponentKind kind,
                                               double model_m) {
  const std::string says = mm(thickness_m);
  if (thickness_m <= 0) {
    return ThicknessSlip{says + " is nothing at all", ""};
  }
  const std::string hint = slip_of_unit(thickness_m, model_m);
  if (is_plate(kind) && (thickness_m < thinnest_plate_m || thickness_m > thickest_plate_m)) {
    return ThicknessSlip{says + " for a " + word_for(kind) + ": between " + mm(thinnest_plate_m) +
                             " and " + mm(thickest_plate_m) + " was expected",
                         hint};
  }
  if (!hint.empty()) {
    return ThicknessSlip{says + ", and its model has " + mm(model_m) + ": 25.4 times apart", hint};
  }
  return std::nullopt;
}

bool is_far_off(double thickness_m, double model_m) {
  return thickness_m > odd_factor * model_m || thickness_m < model_m / odd_factor;
}

bool apply_thickness(const ComponentLine& line, Component& part, Findings& findings) {
  const Figure* figure = part.figure(thickness_figure);
  if (figure == nullptr) {
    if (line.thickness_m || !line.options_m.empty()) {
      const char* key = line.thickness_m ? "thickness" : "options";
      findings.complain(line.at.of(key),
                        line.what() + ": " + key +
                            " is stated, and its model has no figure 'thickness' "
                            "to put it to",
                        "[[component.figure]] with name, low and high");
      return false;
    }
    return true;
  }
  const double model_m = figure->value_m;
  const double thickness_m = line.thickness_m.value_or(model_m);
  const SourcePlace& at = line.at.of(line.thickness_m ? "thickness" : "file");
  if (!judge_figure(line.what(), "thickness", at, thickness_m, part.kind, model_m, findings) ||
      !judge_options(line, part.kind, model_m, thickness_m, findings)) {
    return false;
  }
  if (!line.thickness_m) {
    return true;
  }
  Outcome<Component> result = with_figure(part, thickness_figure, thickness_m);
  if (!result) {
    findings.complain(at, line.what() + ": thickness " + mm(thickness_m) + ": " + result.problem());
    return false;
  }
  part = std::move(result).value();
  return true;
}

} // namespace lugline
