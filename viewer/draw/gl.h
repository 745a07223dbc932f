// OpenGL, kept small: names that delete themselves, programs, textures, targets.
//
// Only what OpenGL 3.3 core and OpenGL ES 3.0 share is used here and in every
// pass. Each handle owns one OpenGL name and must die while its context is
// current. A shader that does not compile is an Outcome failure with the
// driver's words, since the driver is outside data.
#pragma once

#include "scene/quantity/outcome.h"

#ifdef __EMSCRIPTEN__
#include <GLES3/gl3.h>
#else
#include <epoxy/gl.h>
#endif

#include <glm/glm.hpp>

#include <map>
#include <span>
#include <string>
#include <utility>
#include <vector>

namespace lugline {

/// Owns one OpenGL name of a kind; 0 is none.
template <class Kind>
class GlName {
public:
  GlName() = default;
  ~GlName() { drop(); }
  GlName(GlName&& other) noexcept : name_(std::exchange(other.name_, 0)) {}
  GlName& operator=(GlName&& other) noexcept {
    if (this != &other) {
      drop();
      name_ = std::exchange(other.name_, 0);
    }
    return *this;
  }
  GlName(const GlName&) = delete;
  GlName& operator=(const GlName&) = delete;

  static GlName make() {
    GlName made;
    Kind::make(made.name_);
    return made;
  }
  [[nodiscard]] GLuint name() const { return name_; }
  explicit operator bool() const { return name_ != 0; }

private:
  void drop() {
    if (name_ != 0) {
      Kind::drop(name_);
      name_ = 0;
    }
  }
  GLuint name_ = 0;
};

struct TextureKind {
  static void make(GLuint& name) { glGenTextures(1, &name); }
  static void drop(GLuint name) { glDeleteTextures(1, &name); }
};
struct BufferKind {
  static void make(GLuint& name) { glGenBuffers(1, &name); }
  static void drop(GLuint name) { glDeleteBuffers(1, &name); }
};
struct VertexArrayKind {
  static void make(GLuint& name) { glGenVertexArrays(1, &name); }
  static void drop(GLuint name) { glDeleteVertexArrays(1, &name); }
};
struct FramebufferKind {
  static void make(GLuint& name) { glGenFramebuffers(1, &name); }
  static void drop(GLuint name) { glDeleteFramebuffers(1, &name); }
};
struct ProgramKind {
  static void make(GLuint& name) { name = glCreateProgram(); }
  static void drop(GLuint name) { glDeleteProgram(name); }
};

using GlTexture = GlName<TextureKind>;
using GlBuffer = GlName<BufferKind>;
using GlVertexArray = GlName<VertexArrayKind>;
using GlFramebuffer = GlName<FramebufferKind>;

/// A linked program with its uniforms by name. Setting one that the compiler
/// took out does nothing.
class Program {
public:
  /// Sources come without a #version line; the one for this OpenGL is put in
  /// front. Attributes are bound in the order given, from location 0.
  static Outcome<Program> link(const std::string& what, const std::string& vertex,
                               const std::string& fragment,
                               const std::vector<std::string>& attributes = {});

  void use() const { glUseProgram(program_.name()); }
  void set(const char* uniform, int value);
  void set(const char* uniform, float value);
  void set(const char* uniform, double value) { set(uniform, static_cast<float>(value)); }
  void set(const char* uniform, const glm::vec2& value);
  void set(const char* uniform, const glm::vec3& value);
  void set(const char* uniform, const glm::vec4& value);
  void set(const char* uniform, const glm::ivec2& value);
  void set(const char* uniform, const glm::mat3& value);
  void set(const char* uniform, const glm::mat4& value);
  void set(const char* uniform, std::span<const glm::vec4> values);
  /// Binds a texture to a unit and points the sampler at it.
  void sample(const char* uniform, int unit, const GlTexture& texture);

private:
  GLint at(const char* uniform);
  GlName<ProgramKind> program_;
  std::map<std::string, GLint, std::less<>> places_;
};

/// What a texture holds.
enum class TexelKind { rgba8, r8, depth24 };

/// A texture with storage and no mip levels, clamped at its edges.
GlTexture make_texture(TexelKind kind, int width, int height, bool smooth);

/// True where nothing has gone wrong in OpenGL since last asked; for asserts and tests.
bool gl_is_well();

/// A vertex shader that covers the viewport with one triangle, no attributes.
const char* cover_vertex_source();
/// Draws that triangle; the caller's program is in use.
void draw_cover(const GlVertexArray& empty);

} // namespace lugline
