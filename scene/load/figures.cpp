#include "scene/load/figures.h"

#include <algorithm>

namespace lugline {

namespace {

/// Below this a face-to-face distance is nothing: 1 micrometre.
constexpr double least_m = 1e-6;

class Stretcher {
public:
  Stretcher(const Figure& figure, double delta_m)
      : low_m_(figure.zone_low_m), high_m_(figure.zone_high_m), delta_m_(delta_m) {}

  void height(double& z_m) const { z_m = stretched_height(z_m, low_m_, high_m_, delta_m_); }
  void solid(Solid& solid) const { solid = stretched(solid, low_m_, high_m_, delta_m_); }

private:
  double low_m_;
  double high_m_;
  double delta_m_;
};

bool is_left(const Solid& solid) {
  return std::ranges::all_of(
      solid.rings, [](const SectorRing& ring) { return ring.high_m - ring.low_m > least_m; });
}

void stretch_figures(Component& component, const Stretcher& stretch) {
  for (Figure& figure : component.figures) {
    const double span_m = figure.zone_high_m - figure.zone_low_m;
    stretch.height(figure.zone_low_m);
    stretch.height(figure.zone_high_m);
    figure.value_m += (figure.zone_high_m - figure.zone_low_m) - span_m;
  }
}

/// The figures that are kept apart from the solid.
void follow(Component& component, const std::string& name, double delta_m) {
  const bool thickness = name == thickness_figure;
  const bool free_height = name == free_height_figure;
  if (component.wave && (thickness || free_height)) {
    component.wave->free_m += delta_m;
  }
  if (component.wave && thickness) {
    component.wave->flat_m += delta_m;
  }
  if (component.springs && free_height) {
    component.springs->free_m += delta_m;
  }
  if (component.ring && thickness) {
    component.ring->thickness_m += delta_m;
  }
  if (component.ring && component.ring->waved() && (thickness || free_height)) {
    component.ring->free_height_m += delta_m;
  }
}

/// Whether every ring and figure still has a height.
bool is_sound(const Component& component) {
  return is_left(component.solid) &&
         std::ranges::all_of(component.band_states,
                             [](const BandState& state) { return is_left(state.solid); }) &&
         (!component.wave || (component.wave->flat_m > least_m &&
                              component.wave->flat_m <= component.wave->free_m + least_m)) &&
         (!component.springs || component.springs->free_m >= component.springs->solid_m) &&
         (!component.ring ||
          (component.ring->thickness_m > least_m &&
           (!component.ring->waved() ||
            component.ring->thickness_m <= component.ring->free_height_m + least_m)));
}

} // namespace

Outcome<Component> with_figure(const Component& component, const std::string& name,
                               double value_m) {
  const Figure* figure = component.figure(name);
  if (figure == nullptr) {
    return Problem{"it has no figure '" + name + "'"};
  }
  const double delta_m = value_m - figure->value_m;
  if (delta_m == 0) {
    return component;
  }
  const Stretcher stretch(*figure, delta_m);
  Component result = component;
  stretch.solid(result.solid);
  for (BandState& state : result.band_states) {
    stretch.solid(state.solid);
  }
  for (Groove& groove : result.grooves) {
    stretch.height(groove.low_m);
    stretch.height(groove.high_m);
  }
  for (Key& key : result.keys) {
    stretch.height(key.low_m);
    stretch.height(key.high_m);
  }
  for (Mark& mark : result.marks) {
    stretch.height(mark.height_m);
  }
  stretch_figures(result, stretch);
  // The figure itself to the last bit, whatever its zone says.
  std::ranges::find(result.figures, name, &Figure::name)->value_m = value_m;
  follow(result, name, delta_m);
  if (!is_sound(result)) {
    return Problem{
        "at that figure nothing would be left of a part of it, or it would contradict another"};
  }
  return result;
}

std::optional<Figure> shared_thickness(const Solid& solid) {
  if (solid.rings.empty()) {
    return std::nullopt;
  }
  const double low_m = std::ranges::max_element(solid.rings, {}, &SectorRing::low_m)->low_m;
  const double high_m = std::ranges::min_element(solid.rings, {}, &SectorRing::high_m)->high_m;
  if (high_m - low_m <= least_m) {
    return std::nullopt;
  }
  return Figure{thickness_figure, solid.high_m() - solid.low_m(), low_m, high_m};
}

} // namespace lugline
