using Lugbook.Restoration.Map;

namespace Lugbook.Restoration.Tests.Map;

/// <summary>Source: the demo sets' own description (data/demo, invented): which node is what.</summary>
public class DemoMapTests
{
    private static MapResult Map(string name) => MapStage.Run(DemoBooks.Named(name), DemoBooks.Handbook);

    [Fact]
    public void The_radio_has_its_common_on_the_bus_and_not_on_the_chassis()
    {
        var map = Map("radio");
        Assert.Equal("B-", map.Common.Node!.Name);
        Assert.Equal(map.NodeOf("V4-1"), map.Common.Node);
        Assert.Equal("chassis", map.Chassis.Node!.Name);
        Assert.Equal(map.NodeOf("A-3"), map.Chassis.Node);
        Assert.NotEqual(map.Common.Node, map.Chassis.Node);
        Assert.Null(map.Earth.Node);
        Assert.Contains("C12A", map.Common.Evidence, StringComparison.Ordinal);
    }

    [Fact]
    public void The_radio_chassis_is_not_on_the_line_but_isolated_by_C3_and_R10()
    {
        var map = Map("radio");
        Assert.True(map.IsOnLine(map.Common.Node));
        Assert.False(map.IsOnLine(map.Chassis.Node));
        Assert.Equal(["C3", "R10"], map.Isolations.Select(i => i.Part.Name).Order(StringComparer.Ordinal));
        foreach (var lug in new[] { "P1-1", "A-2", "S1-2", "V5-2", "V5-3", "V5-5", "V5-7", "V4-2", "V2-2", "V1-2" })
            Assert.True(map.IsOnLine(map.NodeOf(lug)), lug);
        foreach (var lug in new[] { "V4-8", "V4-5", "V3-6", "C-3", "V1-5", "R4-2", "L2-1" })
            Assert.False(map.IsOnLine(map.NodeOf(lug)), lug);
    }

    [Fact]
    public void The_amplifier_has_one_node_for_common_and_chassis_and_its_line_ends_at_the_primary()
    {
        var map = Map("amp");
        Assert.Equal(map.NodeOf("CH"), map.Common.Node);
        Assert.Equal(map.Chassis.Node, map.Common.Node);
        Assert.Equal("chassis", map.Common.Node!.Name);
        Assert.False(map.IsOnLine(map.Common.Node));
        Assert.Equal(["F1-1", "F1-2", "P1-2", "S1-2"], map.LineNodes.Select(n => n.Name).Order(StringComparer.Ordinal));
        Assert.Equal(["C1"], map.Isolations.Select(i => i.Part.Name));
        Assert.Contains("T1H1", map.Common.Evidence, StringComparison.Ordinal);
    }

    [Fact]
    public void The_television_chassis_is_on_the_line()
    {
        var map = Map("tv");
        Assert.Equal(map.Chassis.Node, map.Common.Node);
        Assert.True(map.IsOnLine(map.Chassis.Node));
        foreach (var lug in new[] { "AM-1", "AM-3", "V14-7", "V3-3", "H-6", "TU-4", "K1-1", "K2-1" })
            Assert.True(map.IsOnLine(map.NodeOf(lug)), lug);
        foreach (var lug in new[] { "TB-1", "V9-2", "K3-1", "V8-2", "T4-3", "Y1-4", "D-1" })
            Assert.False(map.IsOnLine(map.NodeOf(lug)), lug);
    }

    [Theory]
    [InlineData("radio", "V5-8 V4-4")]
    [InlineData("amp", "V5-8 V4-4 K1-3 C-5")]
    [InlineData("tv", "SE2-2 K3-1 V8-6 R3-2")]
    public void Supply_rails_are_numbered_from_the_rectifier(string name, string lugs)
    {
        var map = Map(name);
        Assert.Equal(lugs.Split(' ').Select((_, i) => $"B+{i + 1}"), lugs.Split(' ').Select(l => map.NodeOf(l)!.Name));
    }

    [Theory]
    [InlineData("radio")]
    [InlineData("amp")]
    [InlineData("tv")]
    public void Node_names_do_not_depend_on_the_order_of_the_tables_and_are_unique(string name)
    {
        var book = DemoBooks.Named(name);
        var turned = book with
        {
            Lugs = Trade.Table<Trade.Chassis.Lug>.Of(book.Lugs.Reverse()),
            Wires = Trade.Table<Trade.Chassis.Wire>.Of(book.Wires.Reverse()),
            Parts = Trade.Table<Trade.Parts.Part>.Of(book.Parts.Reverse()),
        };
        var map = Map(name);
        var other = MapStage.Run(turned, DemoBooks.Handbook);
        Assert.Equal(map.Nodes.Select(n => n.Name).Order(StringComparer.Ordinal), other.Nodes.Select(n => n.Name).Order(StringComparer.Ordinal));
        Assert.Equal(map.Nodes.Length, map.Nodes.Select(n => n.Name).Distinct(StringComparer.OrdinalIgnoreCase).Count());
        foreach (var lug in book.Lugs) Assert.Equal(map.NodeOf(lug.Name)!.Name, other.NodeOf(lug.Name.ToLowerInvariant())!.Name);
    }

    [Fact]
    public void The_television_has_the_140_nodes_that_its_description_counts()
    {
        // Nodes that carry something; the description counts those that a wire or a lead reaches.
        var map = Map("tv");
        Assert.Equal(140, map.Nodes.Count(n => n.Leads.Length > 0 || n.Lugs.Length > 1));
    }

    [Fact]
    public void A_foot_is_joined_to_the_chassis_by_a_bond_only()
    {
        var map = Map("radio");
        Assert.True(map.JoinedByBondsOnly("A-3", "CH"));
        Assert.False(map.JoinedByBondsOnly("V1-1", "V3-1"));
        Assert.False(map.JoinedByBondsOnly("A-3", "V3-1"));
    }
}
