#include "viewer/draw/detail.h"

#include <meshoptimizer.h>

#include <algorithm>
#include <cassert>
#include <cmath>

namespace lugline {
namespace {

/// Of the mesh's largest extent.
constexpr std::array<float, 4> level_errors{0.0004f, 0.0012f, 0.0035f, 0.01f};
/// meshoptimizer's figure is a root mean square over the planes that met at a point, not a bound;
/// so much more held for it in the tests.
constexpr double farthest_of_mean = 2.5;
constexpr double worth_making = 0.8; ///< of the triangles before it
constexpr std::size_t least_triangles = 200;
constexpr std::size_t triangles_a_frame = 60000;
/// Nearer to a plane than this counts as crossing it: more than the shader's own allowance.
constexpr double plane_allowance_m = 1e-5;

constexpr unsigned left_by_from = 1;
constexpr unsigned left_by_to = 2;
constexpr unsigned taken_by_from = 4;
constexpr unsigned taken_by_to = 8;

std::uint8_t place_of(const glm::dvec2& point_m, const WedgePlanes& wedge) {
  const double from = point_m.x * double{wedge.planes.x} + point_m.y * double{wedge.planes.y};
  const double to = point_m.x * double{wedge.planes.z} + point_m.y * double{wedge.planes.w};
  unsigned place = 0;
  place |= from < -plane_allowance_m ? left_by_from : 0u;
  place |= from > plane_allowance_m ? taken_by_from : 0u;
  place |= to > plane_allowance_m ? left_by_to : 0u;
  place |= to < -plane_allowance_m ? taken_by_to : 0u;
  return static_cast<std::uint8_t>(place);
}

enum class Where { left, crossing, taken };

/// `all`: what holds of all three corners.
Where where_is(unsigned all, int wedge_kind) {
  const bool left_from = (all & left_by_from) != 0;
  const bool left_to = (all & left_by_to) != 0;
  const bool taken_from = (all & taken_by_from) != 0;
  const bool taken_to = (all & taken_by_to) != 0;
  if (wedge_kind == 1) { // taken where both planes say so
    return left_from || left_to     ? Where::left
           : taken_from && taken_to ? Where::taken
                                    : Where::crossing;
  }
  return left_from && left_to     ? Where::left
         : taken_from || taken_to ? Where::taken
                                  : Where::crossing;
}

void carry(const FrameItem& item, std::span<const std::uint32_t> indices, GlVertexArray& vertices,
           GlBuffer& data) {
  vertices = GlVertexArray::make();
  data = GlBuffer::make();
  glBindVertexArray(vertices.name());
  bind_vertices(*item.stored);
  glBindBuffer(GL_ELEMENT_ARRAY_BUFFER, data.name());
  glBufferData(GL_ELEMENT_ARRAY_BUFFER,
               static_cast<GLsizeiptr>(indices.size() * sizeof(std::uint32_t)), indices.data(),
               GL_STATIC_DRAW);
  glBindVertexArray(0);
}

} // namespace

std::vector<DetailLevel> levels_of(std::span<const glm::vec3> points_m,
                                   std::span<const std::uint32_t> indices) {
  std::vector<DetailLevel> levels;
  if (points_m.empty() || indices.size() < 3 * least_triangles) {
    return levels;
  }
  const float* first = &points_m.front().x;
  const double scale_m = double{meshopt_simplifyScale(first, points_m.size(), sizeof(glm::vec3))};
  std::span<const std::uint32_t> from = indices;
  double error_m = 0;
  for (const float wanted : level_errors) {
    DetailLevel level;
    level.indices.resize(from.size());
    float error = 0;
    const std::size_t count =
        meshopt_simplify(level.indices.data(), from.data(), from.size(), first, points_m.size(),
                         sizeof(glm::vec3), 0, wanted, 0, &error);
    level.indices.resize(count);
    if (static_cast<double>(count) > worth_making * static_cast<double>(from.size())) {
      continue;
    }
    // Each level is made from the one before it, and is off by both.
    error_m += farthest_of_mean * double{error} * scale_m;
    level.error_m = error_m;
    levels.push_back(std::move(level));
    from = levels.back().indices;
  }
  return levels;
}

SortedByCut sorted_by_cut(std::span<const glm::dvec2> place_m,
                          std::span<const std::uint32_t> indices, const WedgePlanes& wedge) {
  SortedByCut sorted;
  std::vector<std::uint8_t> places(place_m.size());
  std::ranges::transform(place_m, places.begin(),
                         [&](const glm::dvec2& point) { return place_of(point, wedge); });
  std::vector<std::uint32_t> crossing;
  sorted.indices.reserve(indices.size());
  for (std::size_t i = 0; i + 2 < indices.size(); i += 3) {
    const unsigned all =
        unsigned{places[indices[i]]} & places[indices[i + 1]] & places[indices[i + 2]];
    const Where where = where_is(all, wedge.kind);
    if (where != Where::taken) {
      std::vector<std::uint32_t>& to = where == Where::left ? sorted.indices : crossing;
      to.insert(to.end(), {indices[i], indices[i + 1], indices[i + 2]});
    }
  }
  sorted.whole = sorted.indices.size();
  sorted.indices.insert(sorted.indices.end(), crossing.begin(), crossing.end());
  return sorted;
}

void DetailStore::begin_frame() {
  ++frame_;
  room_ = triangles_a_frame;
}

const DetailStore::Levels* DetailStore::levels_for(const FrameItem& item) {
  const auto found = levels_.find(item.item->mesh.get());
  if (found != levels_.end() && found->second.source.lock() == item.item->mesh) {
    return &found->second;
  }
  // The first of a frame is made whatever its size, or a huge mesh would never be.
  const std::size_t triangles = item.item->mesh->triangles.size();
  if (triangles > room_ && room_ < triangles_a_frame) {
    return nullptr;
  }
  room_ -= std::min(room_, std::max<std::size_t>(triangles, 1));
  const GpuMesh mesh = gpu_mesh_of(*item.item->mesh, item.stored->middle_m);
  Levels made{item.item->mesh, levels_of(mesh.points_m(), mesh.indices)};
  return &levels_.insert_or_assign(item.item->mesh.get(), std::move(made)).first->second;
}

std::size_t DetailStore::level_for(const FrameItem& item, double coarse_m) {
  if (coarse_m <= 0) {
    return 0;
  }
  const Levels* levels = levels_for(item);
  std::size_t level = 0;
  while (levels != nullptr && level < levels->levels.size() &&
         levels->levels[level].error_m <= coarse_m) {
    ++level;
  }
  return level;
}

const std::vector<std::uint32_t>& DetailStore::indices_of(const FrameItem& item, std::size_t level,
                                                          std::vector<std::uint32_t>& room) {
  if (level > 0) {
    return levels_.at(item.item->mesh.get()).levels[level - 1].indices;
  }
  room = gpu_mesh_of(*item.item->mesh, item.stored->middle_m).indices;
  return room;
}

Detail DetailStore::at(const FrameItem& item, const Cut& cut, double coarse_m) {
  const std::size_t level = level_for(item, coarse_m);
  const Pose& pose = item.item->pose;
  // While it is being turned over, where a point is about the axis depends on its height too.
  const bool level_pose = std::abs(std::sin(pose.over_rad)) < 1e-9;
  const bool sort = item.cut && level_pose;
  if (level == 0 && !sort) {
    return {item.stored->vertices.name(), item.cut ? 0 : item.stored->index_count,
            item.cut ? item.stored->index_count : 0};
  }
  Key key{item.item->mesh.get(), level, {}};
  if (sort) {
    std::get<2>(key) = {pose.turn_rad, pose.over_rad, pose.aside_m, cut.from_rad, cut.to_rad};
  } else {
    std::get<2>(key).fill(item.cut ? -1e9 : 1e9); // no angle of a pose
  }
  const auto found = stored_.find(key);
  if (found != stored_.end() && found->second.source.lock() == item.item->mesh) {
    found->second.last_frame = frame_;
    return {found->second.vertices.name(), found->second.whole, found->second.rest};
  }
  Stored made;
  made.source = item.item->mesh;
  made.last_frame = frame_;
  std::vector<std::uint32_t> room;
  const std::vector<std::uint32_t>& indices = indices_of(item, level, room);
  if (sort) {
    const GpuMesh mesh = gpu_mesh_of(*item.item->mesh, item.stored->middle_m);
    std::vector<glm::dvec2> place_m;
    place_m.reserve(mesh.vertices.size());
    for (const GpuVertex& vertex : mesh.vertices) {
      const glm::dvec3 part =
          glm::dvec3(vertex.position[0], vertex.position[1], vertex.position[2]) +
          item.stored->middle_m;
      place_m.emplace_back(item.place * glm::dvec4(part, 1.0));
    }
    const SortedByCut sorted = sorted_by_cut(place_m, indices, wedge_of(cut));
    carry(item, sorted.indices, made.vertices, made.index_data);
    made.whole = static_cast<GLsizei>(sorted.whole);
    made.rest = static_cast<GLsizei>(sorted.indices.size() - sorted.whole);
  } else {
    carry(item, indices, made.vertices, made.index_data);
    (item.cut ? made.rest : made.whole) = static_cast<GLsizei>(indices.size());
  }
  const Stored& stored = stored_.insert_or_assign(key, std::move(made)).first->second;
  return {stored.vertices.name(), stored.whole, stored.rest};
}

void DetailStore::sweep() {
  std::erase_if(stored_, [this](const auto& entry) {
    return entry.second.last_frame < frame_ - 2 || entry.second.source.expired();
  });
  std::erase_if(levels_, [](const auto& entry) { return entry.second.source.expired(); });
}

} // namespace lugline
