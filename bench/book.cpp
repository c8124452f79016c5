// A book of 10,000 saws: opening, finding, acting, and the memory that it takes.
// It must open in under 0.5 s, find in under 50 ms and stay under 150 MB; what was measured is in docs/models/book.md.
#include "book/book.hpp"

#include <benchmark/benchmark.h>

#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <string>

namespace {

namespace fs = std::filesystem;
using namespace portwright;

constexpr int saws = 10000;

template <class T>
T taken(base::Result<T> result) {
  if (!result) throw std::runtime_error(result.error().message);
  return std::move(*result);
}

/// A saw with its readings, as a builder types them.
std::string readings(int i) {
  std::string out = R"({"bore":{"read":["60.0)" + std::to_string(i % 10) + R"( mm"],"with":"caliper"},"port":{)";
  for (int port = 1; port <= 6; ++port)
    out += (port > 1 ? "," : "") + ("\"p" + std::to_string(port)) + R"(":{"opens":{"read":[")" +
           std::to_string(100 + (i + port) % 30) + R"( deg"],"with":"wheel"},"width":{"read":[")" +
           std::to_string(20 + port) + R"( mm"],"note":"flank measured twice, the second time after cleaning"}})";
  return out + "}}";
}

class Shelf {
 public:
  Shelf() : folder_(fs::temp_directory_path() / "portwright-bench-book") {
    fs::remove_all(folder_);
    place.path = (folder_ / "book.portwright").string();
    place.state_folder = (folder_ / "state").string();
    place.author = "bench";
    place.backs_up = false;
    auto book = taken(book::Book::open(place));
    for (int from = 0; from < saws; from += 100) {
      book::Deed deed;
      deed.label = "add a hundred saws";
      for (int i = from; i < from + 100; ++i) {
        const std::string id = "saw" + std::to_string(100000 + i);
        const std::string name = (i % 3 == 0 ? "Alder " : i % 3 == 1 ? "Birch " : "Cherry ") + std::to_string(i);
        deed.added.push_back(
            {id, "saw", "", R"({"name":")" + name + R"(","model":"A)" + std::to_string(i % 40) + R"("})"});
        deed.added.push_back({"", "readings", id, readings(i)});
      }
      taken(book.act(deed));
    }
  }
  ~Shelf() { fs::remove_all(folder_); }
  book::Place place;

 private:
  fs::path folder_;
};

Shelf& shelf() {
  static Shelf one;
  return one;
}

/// Memory of this process that is in use now, or was at most [MB].
double memory(const char* row) {
  std::ifstream in("/proc/self/status");
  std::string word;
  double kilobytes = 0;
  while (in >> word)
    if (word == row) in >> kilobytes;
  return kilobytes / 1000;
}

void open_book(benchmark::State& state) {
  const book::Place& place = shelf().place;
  for (auto _ : state) benchmark::DoNotOptimize(taken(book::Book::open(place)));
}
BENCHMARK(open_book)->Unit(benchmark::kMillisecond);

void find_words(benchmark::State& state, const char* words, std::size_t expected) {
  auto book = taken(book::Book::open(shelf().place));
  for (auto _ : state)
    if (taken(book.find(words, 50)).size() != expected) throw std::runtime_error(words);
}
BENCHMARK_CAPTURE(find_words, one_name, "birch 4711", 1)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(find_words, no_saw, "cherry 4711", 0)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(find_words, a_third_of_all, "alder", 50)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(find_words, in_every_reading, "flank measured clean", 50)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(find_words, two_letters, "ch", 50)->Unit(benchmark::kMillisecond);

void list_saws(benchmark::State& state) {
  auto book = taken(book::Book::open(shelf().place));
  book::Query query;
  query.kind = "saw";
  query.limit = 100;
  for (auto _ : state) benchmark::DoNotOptimize(taken(book.list(query)));
}
BENCHMARK(list_saws)->Unit(benchmark::kMillisecond);

void act_once(benchmark::State& state) {
  auto book = taken(book::Book::open(shelf().place));
  int i = 0;
  for (auto _ : state) {
    book::Deed deed;
    deed.label = "note";
    deed.changes.push_back({"saw104711", "note", "\"" + std::to_string(++i) + "\"", taken(book.sequence())});
    taken(book.act(deed));
  }
}
BENCHMARK(act_once)->Unit(benchmark::kMillisecond);

/// The peak from here on, as the kernel counts it for the whole process.
void memory_of_a_day(benchmark::State& state) {
  const book::Place& place = shelf().place;
  for (auto _ : state) {
    std::ofstream("/proc/self/clear_refs") << 5;  // the peak begins here
    const double before = memory("VmRSS:");
    auto book = taken(book::Book::open(place));
    for (const char* words : {"alder", "flank measured clean", "ch"}) taken(book.find(words, 50));
    book::Query all;
    all.kind = "saw";
    taken(book.list(all));
    state.counters["peak_MB"] = memory("VmHWM:");
    state.counters["before_MB"] = before;
  }
}
BENCHMARK(memory_of_a_day)->Unit(benchmark::kMillisecond)->Iterations(1);

void verify_all(benchmark::State& state) {
  auto book = taken(book::Book::open(shelf().place));
  for (auto _ : state)
    if (!taken(book.verify()).faults.empty()) throw std::runtime_error("faults");
}
BENCHMARK(verify_all)->Unit(benchmark::kMillisecond)->Iterations(1);

void back_up(benchmark::State& state) {
  auto book = taken(book::Book::open(shelf().place));
  for (auto _ : state) taken(book.back_up());
}
BENCHMARK(back_up)->Unit(benchmark::kMillisecond)->Iterations(1);

}  // namespace
