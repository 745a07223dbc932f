// Says how far two pictures are from each other.
//   compare_pictures ONE.png OTHER.png
// Prints the mean difference of their colours, 0 to 255. Ends with 1 where they
// are not of one size, 2 where one cannot be read.

#include "viewer/draw/image.h"

#include <iostream>

int main(int argc, char** argv) {
  if (argc != 3) {
    std::cerr << "compare_pictures ONE.png OTHER.png\n";
    return 2;
  }
  const auto one = lugline::read_png(argv[1]);
  const auto other = lugline::read_png(argv[2]);
  for (const auto* picture : {&one, &other}) {
    if (!*picture) {
      std::cerr << picture->problem() << "\n";
      return 2;
    }
  }
  const lugline::ImageDifference difference = lugline::compare(one.value(), other.value());
  std::cerr << lugline::text_of(difference) << "\n";
  if (!difference.same_size) {
    return 1;
  }
  std::cout << difference.mean << "\n";
  return 0;
}
