// What a fuzzer does with its bytes, done once with each file named, and with no bytes at all.
#include <cstdint>
#include <cstdio>
#include <fstream>
#include <iterator>
#include <string>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

int main(int count, char** names) {
  LLVMFuzzerTestOneInput(nullptr, 0);
  for (int i = 1; i < count; ++i) {
    std::ifstream file(names[i], std::ios::binary);
    const std::string bytes{std::istreambuf_iterator<char>(file), {}};
    if (!file || bytes.empty()) {
      std::fprintf(stderr, "%s cannot be read\n", names[i]);
      return 1;
    }
    LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size());
  }
  std::printf("%d inputs\n", count);
  return count > 1 ? 0 : 1;
}
