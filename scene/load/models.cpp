#include "scene/load/models.h"

#include "scene/load/figures.h"
#include "scene/load/thickness.h"
#include "scene/part/extras.h"
#include "scene/recipe/recipe.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace lugline {

namespace {

/// A model's look beside its features: facets and small details are not in
/// both, so only a coarse difference is worth a question.
constexpr double same_size_m = 0.5e-3;
constexpr double same_size_part = 0.02;
/// No part of such a unit is wider, or smaller, than this.
constexpr double widest_m = 2;
constexpr double smallest_m = 1e-3;

struct Extent {
  double reach_m = 0; ///< farthest from the axis
  double height_m = 0;
};

Extent extent_of(const Mesh& mesh) {
  Extent extent;
  for (const Vec3& position : mesh.positions_m) {
    extent.reach_m = std::max(extent.reach_m, std::hypot(position.x, position.y));
  }
  const Bounds bounds = bounds_of(mesh);
  extent.height_m = bounds.empty ? 0 : bounds.high_m.z - bounds.low_m.z;
  return extent;
}

/// The largest side of the box about it.
double width_of(const Mesh& mesh) {
  const Bounds bounds = bounds_of(mesh);
  if (bounds.empty) {
    return 0;
  }
  return std::max({bounds.high_m.x - bounds.low_m.x, bounds.high_m.y - bounds.low_m.y,
                   bounds.high_m.z - bounds.low_m.z});
}

std::string metres_or_mm(double length_m) {
  return length_m >= 1 ? fmt::format("{:.4g} m", length_m)
                       : fmt::format("{:.4g} mm", length_m * 1e3);
}

/// What a line's part is before its thickness and its pieces.
struct Made {
  Component part;
  std::shared_ptr<const Mesh> mesh;
};

class Maker {
public:
  Maker(const FileSource& files, Findings& findings) : files_(files), findings_(findings) {}

  /// Empty where the line has a complaint.
  std::optional<Made> make(const ComponentLine& line);

private:
  struct Model {
    std::vector<ModelNode> nodes;
    std::vector<std::shared_ptr<const Mesh>> meshes; ///< of nodes, by index
  };

  std::optional<Made> from_rings(const ComponentLine& line);
  std::optional<Made> from_file(const ComponentLine& line);
  const Model* model(const ComponentLine& line);
  bool check_file(const ComponentLine& line);
  std::optional<std::size_t> node_of(const ComponentLine& line, const Model& model);
  bool take_features(const ComponentLine& line, const ModelNode& node, Component& part);
  void judge_size(const ComponentLine& line, const Mesh& mesh, const Solid& solid);
  void complain(const ComponentLine& line, const std::string& key, const std::string& message,
                std::string hint = {}) {
    findings_.complain(line.at.of(key), line.what() + ": " + message, std::move(hint));
  }

  const FileSource& files_;
  Findings& findings_;
  std::map<std::string, std::optional<Model>> models_; ///< empty: it was complained of
  std::uintmax_t bytes_ = 0;
};

std::optional<Made> Maker::make(const ComponentLine& line) {
  if (line.file.empty() == line.rings.empty()) {
    return std::nullopt; // complained of when the line was read
  }
  return line.file.empty() ? from_rings(line) : from_file(line);
}

std::optional<Made> Maker::from_rings(const ComponentLine& line) {
  Made made;
  made.part.kind = line.kind.value_or(ComponentKind::other);
  made.part.material = line.material.empty() ? "steel" : line.material;
  made.part.solid.rings = line.rings;
  made.part.figures = line.figures;
  if (made.part.figure(thickness_figure) == nullptr) {
    if (const std::optional<Figure> thickness = shared_thickness(made.part.solid)) {
      made.part.figures.push_back(*thickness);
    }
  }
  made.mesh = std::make_shared<const Mesh>(mesh_of(made.part.solid, made.part.material));
  return made;
}

/// What can be said before the file is opened.
bool Maker::check_file(const ComponentLine& line) {
  const Outcome<std::string> inside = inside_name(line.file);
  if (!inside) {
    complain(line, "file", "file " + in_quotes(line.file) + " " + inside.problem());
    return false;
  }
  const Outcome<std::uintmax_t> size = files_.size_of(line.file);
  if (!size) {
    complain(line, "file", "file " + in_quotes(line.file) + ": " + size.problem(),
             findings_.nearest(line.file, files_.names()));
    return false;
  }
  bytes_ += size.value();
  if (size.value() > largest_model_bytes || bytes_ > largest_unit_bytes) {
    complain(line, "file",
             fmt::format("file {} is {} bytes large; at most {} are read of one model and {} of "
                         "all together",
                         in_quotes(line.file), size.value(), largest_model_bytes,
                         largest_unit_bytes),
             "make its mesh coarser");
    return false;
  }
  return true;
}

const Maker::Model* Maker::model(const ComponentLine& line) {
  const auto known = models_.find(line.file);
  if (known != models_.end()) {
    if (!known->second) {
      complain(line, "file", in_quotes(line.file) + " is refused: see where it is first named");
      return nullptr;
    }
    return &*known->second;
  }
  std::optional<Model>& slot = models_[line.file];
  if (!check_file(line)) {
    return nullptr;
  }
  ModelReport report = files_.model(line.file);
  for (const std::string& problem : report.problems) {
    complain(line, "file", in_quotes(line.file) + ": " + problem);
  }
  if (report.problems.empty() && report.nodes.empty()) {
    complain(line, "file", in_quotes(line.file) + " has no node with a mesh");
  }
  if (!report.problems.empty() || report.nodes.empty()) {
    return nullptr;
  }
  slot = Model{std::move(report.nodes), {}};
  for (ModelNode& node : slot->nodes) {
    slot->meshes.push_back(std::make_shared<const Mesh>(std::move(node.mesh)));
  }
  return &*slot;
}

std::optional<std::size_t> Maker::node_of(const ComponentLine& line, const Model& model) {
  const std::string wanted = line.node.empty() ? line.id : line.node;
  std::vector<std::size_t> named;
  std::vector<std::string> paths;
  for (std::size_t i = 0; i < model.nodes.size(); ++i) {
    paths.push_back(in_quotes(model.nodes[i].path));
    if (model.nodes[i].path == wanted) {
      return i;
    }
    if (model.nodes[i].name == wanted) {
      named.push_back(i);
    }
  }
  if (named.size() == 1) {
    return named.front();
  }
  const std::string key = line.node.empty() ? "file" : "node";
  const std::string has = in_quotes(line.file) + " has " + listed(paths, 12);
  if (named.size() > 1) {
    complain(line, key,
             fmt::format("{} nodes are named {}: which one?", named.size(), in_quotes(wanted)),
             "write its path; " + has);
  } else if (!line.node.empty()) {
    complain(line, key, "there is no node " + in_quotes(wanted), has);
  } else if (model.nodes.size() > 1) {
    complain(line, key,
             fmt::format("{} has {} nodes and none named {}: which one?", in_quotes(line.file),
                         model.nodes.size(), in_quotes(wanted)),
             "write node = …; " + has);
  } else {
    return 0;
  }
  return std::nullopt;
}

bool Maker::take_features(const ComponentLine& line, const ModelNode& node, Component& part) {
  const Outcome<std::optional<Component>> read = component_from_extras_text(node.extras_json);
  if (!read) {
    complain(line, "file",
             in_quotes(line.file) + ", node " + in_quotes(node.path) +
                 ": its features are wrong: " + read.problem());
    return false;
  }
  if (!read.value()) {
    part.kind = line.kind.value_or(ComponentKind::other);
    part.figures = line.figures;
    findings_.ask(line.at.of("file"),
                  line.what() + ": " + in_quotes(line.file) + ", node " + in_quotes(node.path) +
                      " states no features: the drop has only its triangles to go by",
                  "make it from caliper figures, or write its rings in unit.toml");
    return true;
  }
  part = *read.value();
  if (line.kind && *line.kind != part.kind) {
    complain(line, "kind",
             "kind is " + in_quotes(word_for(*line.kind)) + ", and " + in_quotes(line.file) +
                 " says " + in_quotes(word_for(part.kind)));
    return false;
  }
  if (!line.figures.empty()) {
    complain(line, "figure",
             "figures are for a part whose model states none, and " + in_quotes(line.file) +
                 " states its own");
    return false;
  }
  if (part.id != line.id) {
    findings_.ask(line.at.of("file"), line.what() + ": " + in_quotes(line.file) + " calls itself " +
                                          in_quotes(part.id) + ": is it the right model?");
  }
  return true;
}

void Maker::judge_size(const ComponentLine& line, const Mesh& mesh, const Solid& solid) {
  const double largest_m = width_of(mesh);
  const SourcePlace& at = line.at.of("file");
  const std::string model = line.what() + ": " + in_quotes(line.file) + " is ";
  if (largest_m > widest_m) {
    findings_.ask(at, model + metres_or_mm(largest_m) + " wide: millimetres?",
                  "glTF is in metres; export it again with that unit");
  } else if (largest_m < smallest_m) {
    findings_.ask(at, model + "only " + metres_or_mm(largest_m) + " wide: another unit?",
                  "glTF is in metres; export it again with that unit");
  }
  if (solid.rings.empty()) {
    return;
  }
  const Extent seen = extent_of(mesh);
  const Extent stated{solid.outer_m(), solid.high_m() - solid.low_m()};
  const auto differ = [](double a_m, double b_m) {
    return std::abs(a_m - b_m) > same_size_m + same_size_part * std::max(a_m, b_m);
  };
  if (differ(seen.height_m, stated.height_m) || differ(seen.reach_m, stated.reach_m)) {
    findings_.ask(at,
                  model + metres_or_mm(seen.height_m) + " high and reaches " +
                      metres_or_mm(seen.reach_m) + " from its axis, and its features say " +
                      metres_or_mm(stated.height_m) + " and " + metres_or_mm(stated.reach_m),
                  "do mesh and features belong together?");
  }
}

std::optional<Made> Maker::from_file(const ComponentLine& line) {
  const Model* found = model(line);
  if (found == nullptr) {
    return std::nullopt;
  }
  const std::optional<std::size_t> node = node_of(line, *found);
  if (!node) {
    return std::nullopt;
  }
  Made made;
  made.mesh = found->meshes[*node];
  if (!take_features(line, found->nodes[*node], made.part)) {
    return std::nullopt;
  }
  if (!line.material.empty()) {
    made.part.material = line.material;
  } else if (made.part.material.empty()) {
    made.part.material = made.mesh->ranges.empty() ? "steel" : made.mesh->ranges.front().material;
  }
  judge_size(line, *made.mesh, made.part.solid);
  return made;
}

void add_pieces(const ComponentLine& line, const Made& made,
                std::optional<double> model_thickness_m, std::vector<UnitComponent>& all) {
  UnitComponent piece;
  piece.line = line.id;
  piece.part = made.part;
  piece.mesh = made.mesh;
  piece.model_thickness_m = model_thickness_m;
  for (const Written<double>& option : line.options_m) {
    piece.thickness_options_m.push_back(option.value);
  }
  piece.source = line.at.table();
  if (!line.name.empty() || piece.part.name.empty()) {
    piece.part.name = line.name.empty() ? line.id : line.name;
  }
  const std::string name = piece.part.name;
  const std::string label = line.label.empty() ? name : line.label;
  int number = 0;
  for (const std::string& id : line.piece_ids()) {
    const std::string suffix = line.count == 1 ? "" : " " + std::to_string(++number);
    piece.id = id;
    piece.part.id = id;
    piece.part.name = name + suffix;
    piece.label = label + suffix;
    all.push_back(piece);
  }
}

} // namespace

std::vector<UnitComponent> make_components(const std::vector<ComponentLine>& lines,
                                           const FileSource& files, Findings& findings) {
  std::vector<UnitComponent> all;
  Maker maker(files, findings);
  for (const ComponentLine& line : lines) {
    std::optional<Made> made = maker.make(line);
    if (!made) {
      continue;
    }
    std::optional<double> model_thickness_m;
    if (const Figure* thickness = made->part.figure(thickness_figure)) {
      model_thickness_m = thickness->value_m;
    }
    if (apply_thickness(line, made->part, findings)) {
      add_pieces(line, *made, model_thickness_m, all);
    }
  }
  return all;
}

} // namespace lugline
