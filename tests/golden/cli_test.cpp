#include <gtest/gtest.h>

#include "unit/cli/program.hpp"

// Help as a builder first sees it. A difference is looked at, then the file is written anew on purpose.
namespace {

void expect_kept(const std::vector<std::string>& words, const char* name) {
  const auto kept = std::filesystem::path(PORTWRIGHT_SOURCE_DIR) / "tests/golden" / name;
  const auto ran = program::run(words);
  EXPECT_EQ(ran.status, 0);
  EXPECT_EQ(ran.out, program::read_file(kept)) << name;
}

TEST(cli, the_overview_has_not_moved) { expect_kept({"--help"}, "cli_overview.txt"); }
TEST(cli, the_help_of_study_has_not_moved) { expect_kept({"study", "--help"}, "cli_study_help.txt"); }
TEST(cli, the_help_of_edge_has_not_moved) { expect_kept({"edge", "--help"}, "cli_edge_help.txt"); }
TEST(cli, the_help_of_plan_has_not_moved) { expect_kept({"plan", "--help"}, "cli_plan_help.txt"); }
TEST(cli, the_help_of_run_has_not_moved) { expect_kept({"run", "--help"}, "cli_run_help.txt"); }
TEST(cli, the_help_of_airflow_has_not_moved) { expect_kept({"airflow", "--help"}, "cli_airflow_help.txt"); }
TEST(cli, the_help_of_crank_has_not_moved) { expect_kept({"crank", "--help"}, "cli_crank_help.txt"); }
TEST(cli, the_help_of_heat_has_not_moved) { expect_kept({"heat", "--help"}, "cli_heat_help.txt"); }
TEST(cli, the_help_of_revs_has_not_moved) { expect_kept({"revs", "--help"}, "cli_revs_help.txt"); }
TEST(cli, the_help_of_chain_has_not_moved) { expect_kept({"chain", "--help"}, "cli_chain_help.txt"); }

}  // namespace
