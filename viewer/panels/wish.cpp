#include "viewer/panels/wish.h"

namespace lugline {

std::vector<double> scales() {
  return {1.0, 1.25, 1.5, 1.75, 2.0, 2.25, 2.5};
}

std::optional<FiguresKind> figures_of(PanelKind panel) {
  switch (panel) {
  case PanelKind::pack:
    return FiguresKind::pack;
  case PanelKind::play:
    return FiguresKind::play;
  case PanelKind::train:
    return FiguresKind::train;
  case PanelKind::air:
    return FiguresKind::air;
  default:
    return std::nullopt;
  }
}

PanelKind panel_of(FiguresKind kind) {
  switch (kind) {
  case FiguresKind::pack:
    return PanelKind::pack;
  case FiguresKind::play:
    return PanelKind::play;
  case FiguresKind::train:
    return PanelKind::train;
  case FiguresKind::air:
    break;
  }
  return PanelKind::air;
}

} // namespace lugline
