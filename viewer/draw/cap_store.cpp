#include "viewer/draw/cap_store.h"

#include "viewer/draw/look.h"

#include <algorithm>
#include <cmath>

namespace lugline {
namespace {

struct CapVertex {
  float r;
  float z;
  float look;
  float thickness;
};

/// Pieces overlap by a hair up and down, so that no pixel falls between two of them.
double overlap_m(const Section& section) {
  double low = 0;
  double high = 0;
  for (const CapPiece& piece : section.pieces) {
    low = std::min(low, piece.low_m);
    high = std::max(high, piece.high_m);
  }
  return std::max(1e-6, 2e-5 * (high - low));
}

void add_piece(const CapPiece& piece, double overlap, Look look, double thickness_m,
               std::vector<CapVertex>& out) {
  const auto vertex = [look, thickness_m](double r, double z) {
    return CapVertex{static_cast<float>(r), static_cast<float>(z), static_cast<float>(look),
                     static_cast<float>(thickness_m)};
  };
  const CapVertex a = vertex(piece.left_low_m, piece.low_m - overlap);
  const CapVertex b = vertex(piece.right_low_m, piece.low_m - overlap);
  const CapVertex c = vertex(piece.right_high_m, piece.high_m + overlap);
  const CapVertex d = vertex(piece.left_high_m, piece.high_m + overlap);
  out.insert(out.end(), {a, b, c, a, c, d});
}

void carry(const std::vector<CapVertex>& vertices, StoredCap& cap) {
  cap.vertex_count = static_cast<GLsizei>(vertices.size());
  cap.vertices = GlVertexArray::make();
  cap.data = GlBuffer::make();
  glBindVertexArray(cap.vertices.name());
  glBindBuffer(GL_ARRAY_BUFFER, cap.data.name());
  glBufferData(GL_ARRAY_BUFFER, static_cast<GLsizeiptr>(vertices.size() * sizeof(CapVertex)),
               vertices.data(), GL_STATIC_DRAW);
  glEnableVertexAttribArray(0);
  glVertexAttribPointer(0, 4, GL_FLOAT, GL_FALSE, sizeof(CapVertex), nullptr);
  glBindVertexArray(0);
}

} // namespace

const StoredCap& CapStore::at(const PictureItem& item, double angle_rad, KeptSide kept) {
  const Stretch stretch = item.stretch.value_or(Stretch{});
  const Key key{item.mesh.get(),
                {item.pose.height_m, item.pose.turn_rad, item.pose.over_rad, item.pose.over_about_m,
                 item.pose.aside_m, item.stretch ? 1.0 : 0.0, stretch.zone_low_m,
                 stretch.zone_high_m, stretch.delta_m, angle_rad,
                 kept == KeptSide::clockwise ? 0.0 : 1.0}};
  const auto found = stored_.find(key);
  if (found != stored_.end() && found->second.source.lock() == item.mesh) {
    found->second.last_frame = frame_;
    return found->second;
  }
  const Section section = section_of(*item.mesh, item.pose, item.stretch, angle_rad, kept);
  StoredCap cap;
  cap.source = item.mesh;
  cap.last_frame = frame_;
  cap.closed = section.closed;
  const double overlap = overlap_m(section);
  std::vector<CapVertex> vertices;
  std::vector<double> thickness;
  for (std::size_t m = 0; m < section.materials.size(); ++m)
    thickness.push_back(section.thickness_m(m));
  for (std::size_t m = 0; m < section.materials.size(); ++m)
    if (section.materials.size() > 1 && look_of(section.materials[m]) == Look::lining)
      cap.lining_m = section.layer_m(m);
  double low_r = HUGE_VAL;
  double high_r = -HUGE_VAL;
  double low_z = HUGE_VAL;
  double high_z = -HUGE_VAL;
  for (const CapPiece& piece : section.pieces) {
    add_piece(piece, overlap, look_of(section.materials[piece.material]), thickness[piece.material],
              vertices);
    low_r = std::min({low_r, piece.left_low_m, piece.left_high_m});
    high_r = std::max({high_r, piece.right_low_m, piece.right_high_m});
    low_z = std::min(low_z, piece.low_m);
    high_z = std::max(high_z, piece.high_m);
  }
  if (!section.pieces.empty()) {
    cap.middle_r_m = 0.5 * (low_r + high_r);
    cap.middle_z_m = 0.5 * (low_z + high_z);
    carry(vertices, cap);
  }
  return stored_.insert_or_assign(key, std::move(cap)).first->second;
}

void CapStore::sweep() {
  std::erase_if(stored_, [this](const auto& entry) {
    return entry.second.last_frame < frame_ - 2 || entry.second.source.expired();
  });
}

} // namespace lugline
