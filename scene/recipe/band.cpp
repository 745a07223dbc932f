#include "scene/recipe/band.h"

#include "scene/recipe/kinds.h"

#include <utility>

namespace lugline {

void make_band_of(BandSolids solids, double width_m, const MeshOptions& options, MadePart& part) {
  Component& component = part.component;
  component.kind = ComponentKind::band;
  component.solid = solids.relaxed;
  component.band_states.push_back({"spread", std::move(solids.spread)});
  component.band_states.push_back({"relaxed", std::move(solids.relaxed)});
  component.band_states.push_back({"leaning", std::move(solids.leaning)});
  component.figures.push_back(thickness_figure(width_m, 0, width_m, "width"));
  part.mesh = mesh_of(component.solid, component.material, options);
}

} // namespace lugline
