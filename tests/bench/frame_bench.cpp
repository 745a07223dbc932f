// How long a frame of the demo's last step takes, in motion and as a still, beside a bare draw of
// the same triangles with one plain shader. All in one run, since machines are noisy: read the
// ratios. Prints the median of several frames, and each pass's share.
//
// bench_frame [WIDTHxHEIGHT [STEP [FOLDER]]]: 1280x720 and the last step unless told otherwise;
// with a folder, the last frame of each sort is written there, to be looked at.

#include "scene/load/load.h"
#include "viewer/app/pace.h"
#include "viewer/draw/gl.h"
#include "viewer/draw/gl_context.h"
#include "viewer/draw/mesh_store.h"
#include "viewer/draw/renderer.h"
#include "viewer/draw/view.h"
#include "viewer/stage/stage.h"

#include <epoxy/gl.h>
#include <glm/gtc/matrix_transform.hpp>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <functional>
#include <iostream>
#include <map>
#include <string>
#include <vector>

namespace {

using namespace lugline;

constexpr int frames = 15;

const char* const bare_vertex = R"(
in vec3 a_position;
in vec3 a_normal;
uniform mat4 u_clip_from_part;
out vec3 v_normal;
void main() {
  v_normal = a_normal;
  gl_Position = u_clip_from_part * vec4(a_position, 1.0);
}
)";
const char* const bare_fragment = R"(
in vec3 v_normal;
layout(location = 0) out vec4 o_colour;
void main() { o_colour = vec4(v_normal * 0.5 + 0.5, 1.0); }
)";

double median_ms(const std::function<void(int)>& frame) {
  std::vector<double> times;
  frame(0);
  glFinish();
  for (int i = 1; i <= frames; ++i) {
    const auto start = std::chrono::steady_clock::now();
    frame(i);
    glFinish();
    times.push_back(
        std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start)
            .count());
  }
  std::ranges::nth_element(times, times.begin() + frames / 2);
  return times[frames / 2];
}

void draw_bare(Program& program, MeshStore& store, const OffscreenTarget& target,
               const Picture& picture) {
  const Viewport viewport = target.viewport();
  std::vector<glm::dvec3> reach;
  for (const PictureItem& item : picture.items) {
    const auto corners = corners_of(store.at(item.mesh).bounds, item.pose, item.stretch);
    reach.insert(reach.end(), corners.begin(), corners.end());
  }
  const View view = view_of(picture.camera, viewport.width_px, viewport.height_px, reach);
  glBindFramebuffer(GL_FRAMEBUFFER, target.framebuffer());
  glViewport(0, 0, viewport.width_px, viewport.height_px);
  glEnable(GL_DEPTH_TEST);
  glEnable(GL_CULL_FACE);
  glClear(GL_COLOR_BUFFER_BIT | GL_DEPTH_BUFFER_BIT);
  program.use();
  for (const PictureItem& item : picture.items) {
    const StoredMesh& mesh = store.at(item.mesh);
    const glm::dmat4 place =
        place_from_part(item.pose) * glm::translate(glm::dmat4(1.0), mesh.middle_m);
    program.set("u_clip_from_part", glm::mat4(view.clip_from_place * place));
    glBindVertexArray(mesh.vertices.name());
    glDrawElements(GL_TRIANGLES, mesh.index_count, GL_UNSIGNED_INT, nullptr);
  }
  glDisable(GL_DEPTH_TEST);
  glDisable(GL_CULL_FACE);
}

} // namespace

int main(int argc, char** argv) {
  int width = 1280;
  int height = 720;
  if (argc > 1 && std::sscanf(argv[1], "%dx%d", &width, &height) != 2) {
    std::cerr << "bench_frame [WIDTHxHEIGHT [STEP [FOLDER]]]\n";
    return 2;
  }
  const LoadReport loaded = load_unit(std::string(LUGLINE_ROOT) + "/assets-demo/hobspindle-three");
  auto context = GlContext::make();
  if (!loaded.unit || !context) {
    std::cerr << "no unit, or no OpenGL\n";
    return 1;
  }
  auto made = Renderer::create();
  auto bare = Program::link("bare", bare_vertex, bare_fragment, {"a_position", "a_normal"});
  if (!made || !bare) {
    std::cerr << (made ? bare.problem() : made.problem()) << "\n";
    return 1;
  }
  Renderer renderer = std::move(made).value();
  Program program = std::move(bare).value();
  const Stage stage(loaded.unit);
  ViewState view;
  view.step = argc > 2 ? loaded.unit->step_index(argv[2]) : loaded.unit->steps.size() - 1;
  view.moment = 1;
  const double aspect = static_cast<double>(width) / height;
  const OffscreenTarget target(width, height);
  MeshStore store;
  const auto turned = [&](int i) {
    Picture picture = stage.picture(view, aspect);
    picture.camera.turn_rad += 0.05 * i;
    return picture;
  };
  std::size_t triangles = 0;
  for (const PictureItem& item : turned(0).items) {
    triangles += item.mesh->triangles.size();
  }
  std::cout << reinterpret_cast<const char*>(glGetString(GL_RENDERER)) << "\n"
            << width << "x" << height << ", " << triangles << " triangles, "
            << turned(0).items.size() << " parts\n";
  const double bare_ms = median_ms([&](int i) { draw_bare(program, store, target, turned(i)); });
  std::printf("%-28s%8.1f ms\n", "bare draw", bare_ms);
  std::printf("%-28s%8.1f ms\n", "the picture as a list",
              median_ms([&](int i) { static_cast<void>(turned(i)); }));
  std::vector<std::pair<std::string, DrawQuality>> sorts{{"a still", still_quality}};
  for (std::size_t i = 1; i < qualities_in_motion().size(); ++i) {
    sorts.emplace_back("in motion, level " + std::to_string(i), qualities_in_motion()[i]);
  }
  for (const auto& [name, quality] : sorts) {
    std::map<std::string, double> passes;
    DrawOptions options;
    options.quality = quality;
    const double ms = median_ms([&](int i) {
      renderer.draw_into(target.framebuffer(), target.viewport(), turned(i), options);
    });
    std::printf("%-28s%8.1f ms  %.2f of the bare draw\n", name.c_str(), ms, ms / bare_ms);
    options.time = [&](const char* pass, double pass_ms) { passes[pass] += pass_ms; };
    for (int i = 0; i < frames; ++i) {
      renderer.draw_into(target.framebuffer(), target.viewport(), turned(i), options);
    }
    for (const auto& [pass, total] : passes) {
      std::printf("  %-26s%8.1f ms\n", pass.c_str(), total / frames);
    }
    if (argc > 3) {
      static_cast<void>(write_png(target.read(), std::string(argv[3]) + "/" + name + ".png"));
    }
  }
  return 0;
}
