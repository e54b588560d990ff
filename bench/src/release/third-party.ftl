<#-- One line a library, in the order of their names, so that two builds give the same list. -->
Libraries in this archive and their licences

Where two licences are named, the user may choose one of them. Sprag uses the library under the one after "used under".

<#list dependencyMap?filter(e -> e.getKey().groupId != "sprag")?sort_by(["key","artifactId"]) as entry>
<#assign chosen = entry.getValue()?filter(l -> ["Apache-2.0", "MIT", "EPL-2.0", "BSD-2-Clause", "BSD-3-Clause", "CC0-1.0"]?seq_contains(l))>
${entry.getKey().groupId}:${entry.getKey().artifactId}:${entry.getKey().version}
    ${entry.getValue()?sort?join(" or ")}<#if (entry.getValue()?size > 1)>; used under ${chosen?sort?first!"none of them"}</#if>
</#list>
