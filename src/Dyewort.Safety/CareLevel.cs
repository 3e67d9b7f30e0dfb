namespace Dyewort.Safety;

/// <summary>How much care a thing asks for.</summary>
public enum CareLevel
{
    /// <summary>Nothing is known against it; that does not mean that it is safe.</summary>
    None = 0,

    /// <summary>Worth a word.</summary>
    Note,

    /// <summary>It hurts whoever is careless.</summary>
    Careful,

    /// <summary>It can kill, or has no place in an ink.</summary>
    Stop,
}
